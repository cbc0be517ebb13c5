-- The numbers that the next import and its first file take.
--
-- One row.
-- Columns:
--   import     1, 2, 3 …
--   from_file  1, 2, 3 …
select
    (select coalesce(max(import), 0) + 1 from imports) as import,
    (select coalesce(max(from_file), 0) + 1 from import_files) as from_file
