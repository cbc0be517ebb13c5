-- The tables of the history.
--
-- One row: one table.
-- Columns:
--   schema  main | superseded
--   name    the table
select schema_name as schema, table_name as name
from duckdb_tables()
where not temporary and not internal
    -- a reader has the file attached to an engine in memory
    and database_name = (select database_name from duckdb_tables() where table_name = 'history_schema')
order by schema, name
