-- Note which record each line of another program's list has become, for the measurements and faults of the same line.
insert into line_records
select
    '{{.Table}}', read_rows.line, {{range .Placed}}{{if .}}checked.{{.}}{{else}}null{{end}}, {{end}}
    checked.{{.At}}, on_date(checked.date_only, '{{.At}}'), named.number, named.known_as
from fates
join checked on checked.row = fates.row
join read_rows on read_rows.rowid = fates.row
join named on named.row = coalesce(fates.first_row, fates.row)
where fate <> 'second'
