-- Drop what is noted of numbers that an undone import had taken.
--
-- Parameters:
--   $import  the import that is undone
delete from renumbered where import = $import
