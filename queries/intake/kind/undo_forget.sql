-- Drop what an import replaced from the superseded records.
--
-- Parameters:
--   $import  the import that is undone
delete from superseded.{{.Table}} where replaced_by = $import
