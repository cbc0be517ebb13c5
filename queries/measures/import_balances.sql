-- What each file brought, import by import.
--
-- One row: one kind of record in one file of an import.
-- Columns:
--   import     1, 2, 3 …
--   at         when
--   file       its name as given
--   sheet      in a workbook; null elsewhere
--   kind       jobs, glass, …
--   read       rows read
--   added      of these, new
--   updated    of these, put in the place of an earlier row
--   unchanged  of these, on record already
--   rejected   of these, set aside
--   undone     the import was taken back
-- Source: record layout, What an import must do.
select
    import, at, file, sheet, kind, read, added, updated, unchanged, rejected, undone_at is not null as undone
from import_files
join imports using (import)
order by import, from_file
