-- The latest event of the history, from its records.
select as_of from main.latest_event
