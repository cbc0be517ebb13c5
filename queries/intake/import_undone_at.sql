-- Whether an import stands.
--
-- One row, none where there is no such import.
-- Columns:
--   is_undone  it was taken back already
-- Parameters:
--   $import  its number
select undone_at is not null as is_undone
from imports
where import = $import
