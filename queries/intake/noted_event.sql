-- The latest event of the history, as its last import noted it; null where none did.
select as_of from main.asked
