-- The macros and views of a database, as the engine keeps them.
--
-- One row: one macro or view.
-- Columns:
--   name  macro or view, and its name
--   text  its definition
-- Parameters:
--   $database  its name among those attached; null for the one that is open
select 'view ' || view_name as name, sql as text
from duckdb_views()
where not internal and not temporary and database_name = coalesce($database, current_database()) and schema_name = 'main'
union all
select 'macro ' || function_name, parameters::varchar || ' ' || macro_definition
from duckdb_functions()
where not internal and function_type = 'macro' and database_name = coalesce($database, current_database())
order by name
