-- Let the records stand again that an import replaced. Those of its own files are gone for good.
--
-- Parameters:
--   $import  the import that is undone
insert into {{.Table}} by name
select * exclude (replaced_by)
from superseded.{{.Table}}
where replaced_by = $import and from_file not in (select from_file from import_files where import = $import)
