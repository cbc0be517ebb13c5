-- Note the latest event in the file, for readers of the views. The last step of an import and of its undoing.
update main.asked set as_of = (select as_of from main.latest_event)
