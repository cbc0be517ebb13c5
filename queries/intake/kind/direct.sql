-- Take a file straight into its table, the rows that can be read and need no number.
--
-- Parameters:
--   $file       its path
--   $from_file  its number
insert into {{.Table}} ({{list "" .Stored}}, from_file)
select {{list "" .Stored}}, $from_file
from ({{.Typed}})
where coin < 0 or ({{.Readable}}{{if .Number}} and ({{.Number}} is not null{{if .Owner}} or {{.At}} is null{{end}}){{end}})
