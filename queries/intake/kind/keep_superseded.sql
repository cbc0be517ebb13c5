-- Keep the records that rows of the file replace, to be read for ever.
--
-- Parameters:
--   $import  the import that replaces them
insert into superseded.{{.Table}} by name
select old.*, $import as replaced_by
from {{.Table}} as old
join fates on fates.old_row = old.rowid
where fate = 'updated'
