-- The tables of the history.
--
-- One row: one table.
-- Columns:
--   schema  main | superseded
--   name    the table
select schema_name as schema, table_name as name
from duckdb_tables()
where not temporary and not internal and database_name = current_database()
order by schema, name
