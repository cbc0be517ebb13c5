-- The version of the history's tables.
--
-- One row.
-- Columns:
--   version  1, 2, 3 …
select version from history_schema
