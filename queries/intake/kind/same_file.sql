-- The latest time that the very same file was taken in by the same rules, where nothing has gone since of what it brought
-- or found: all its rows are on record as they are, or set aside for the same reasons.
--
-- One row: one earlier file; none where the file has to be read again.
-- Columns:
--   from_file  its number
--   import     of which import
--   read       rows read
--   rejected   rows set aside
-- Parameters:
--   $sha256  of the file
--   $sheet   of a workbook, or null
--   $rules   digest of the rules
select from_file, import, read, rejected
from import_files as earlier
join imports using (import)
where sha256 = $sha256 and sheet is not distinct from $sheet and kind = '{{.Table}}' and rules = $rules and undone_at is null
    and not exists(select 1 from superseded.{{.Table}} where replaced_by >= earlier.import)
    and not exists(
        select 1
        from imports as gone
        join import_files as gone_file using (import)
        where gone.undone_at is not null and gone.import < earlier.import and gone_file.kind = '{{.Table}}'
    )
order by from_file desc
limit 1
