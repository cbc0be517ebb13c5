-- The columns of the tables of a database.
--
-- One row: one column.
-- Columns:
--   schema       main | superseded
--   relation     the table
--   name         the column
--   type         its type, enumerations with their words
--   value        the default where a row gives none, as SQL; null where there is none
--   comment      of the table
--   is_required  not null
-- Parameters:
--   $database  its name among those attached; null for the one that is open
select
    columns.schema_name as schema, columns.table_name as relation, column_name as name, data_type as type,
    column_default as value, tables.comment, not is_nullable as is_required
from duckdb_columns() as columns
join duckdb_tables() as tables using (database_name, schema_name, table_name)
where database_name = coalesce($database, current_database()) and not tables.temporary
order by schema, relation, column_index
