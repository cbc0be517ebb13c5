-- Note in the journal that an import was taken back.
--
-- Parameters:
--   $import  its number
--   $at      wall clock
update imports set undone_at = $at::timestamp where import = $import
