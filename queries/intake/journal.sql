-- The import journal.
--
-- One row: one kind of record in one file of an import.
-- Columns:
--   import     number of the import
--   file       the name as given, with the sheet where there is one
--   kind       kind of record
--   read       rows read; the next four add up to it
--   added      new records
--   updated    records that replaced an earlier one
--   unchanged  records that were there already
--   rejected   rows set aside
--   at         wall clock of the import
--   undone_at  when it was taken back; null while it stands
select
    import, file || coalesce('!' || sheet, '') as file, kind, read, added, updated, unchanged, rejected, at, undone_at
from import_files
join imports using (import)
order by import, from_file
