-- Set the rows of a file aside that were set aside when the very same file was taken in before.
--
-- Parameters:
--   $from_file  the file's number
--   $earlier    the number that it had then
insert into rejects
select $from_file, line, column_name, value, reason, remedy, header, fields
from rejects
where from_file = $earlier
