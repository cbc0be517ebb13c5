-- Take the records of an import away.
--
-- Parameters:
--   $import  the import that is undone
delete from {{.Table}} where from_file in (select from_file from import_files where import = $import)
