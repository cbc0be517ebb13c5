-- Tell whose the measurements and faults are that stand in the line of their attempt or scan: that very record's, by its
-- name, or by its number where that was read.
update checked set
    known_as = found.known_as,
    {{.Number}} = case when found.known_as is null then found.number else checked.{{.Number}} end
from read_rows, line_records as found
where read_rows.rowid = checked.row and checked.readable and checked.{{.Number}} is null
    and found.kind = '{{.Owner}}' and found.line = read_rows.line
    and {{same "found" "checked" .Among}} and found.at = checked.{{.At}}
    and found.on_date = on_date(checked.date_only, '{{.At}}')
