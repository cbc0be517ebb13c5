-- The rows of a file that the engine can cut and not take straight.
--
-- One row: one row of the file.
-- Columns:
--   whole  its fields as read, separated by chr(31)
-- Parameters:
--   $file  its path
select whole
from ({{.Typed}})
where coin < 0 or not ({{.Readable}}{{if .Number}} and ({{.Number}} is not null{{if .Owner}} or {{.At}} is null{{end}}){{end}})
