-- Whether the open database is a plumbline history.
--
-- One row.
-- Columns:
--   is_history  it has the table that only a history has
select count(*) > 0 as is_history
from duckdb_tables()
where table_name = 'history_schema' and schema_name = 'main' and not temporary
