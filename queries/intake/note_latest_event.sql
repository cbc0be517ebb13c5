-- Note the latest event in the file, for clients other than plumbline. The last step of an import and of its undoing.
update asked set as_of = (select as_of from latest_event)
