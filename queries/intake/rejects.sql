-- Rows that an import set aside.
--
-- One row: one row of a file.
-- Columns:
--   from_file    the journal's line
--   file         the name as given
--   sheet        of a workbook; empty for other files
--   kind         kind of record
--   line         physical line, or the sheet's row
--   column_name  as the source writes it; empty where the whole row is at fault
--   value        as read
--   reason       what is wrong
--   remedy       what to do
--   header       the source's columns, a JSON array
--   fields       the row's fields as read, a JSON array
-- Parameters:
--   $import  the import; null for all that stand
select
    rejects.from_file, file, coalesce(sheet, '') as sheet, kind, line,
    coalesce(column_name, '') as column_name, coalesce(value, '') as value, reason, coalesce(remedy, '') as remedy,
    to_json(header)::varchar as header, to_json(fields)::varchar as fields
from rejects
join import_files using (from_file)
join imports using (import)
where import = $import or ($import is null and undone_at is null)
order by rejects.from_file, line, column_name
