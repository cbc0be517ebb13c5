-- Set rows aside that cannot be read: whole, with the first value at fault and what to do.
--
-- Parameters:
--   $from_file  the file's number
--   $header     the source's columns, a JSON array
--   $names      the columns as faults call them, a JSON array for each record that a profile makes of a row
insert into rejects
with
header as (
    select from_json($header::json, '["VARCHAR"]') as header, from_json($names::json, '[["VARCHAR"]]') as names
),
faulty as (
    select
        line, fields, header,
        case
            when misshapen is not null then [fault(null::varchar, null::varchar, misshapen, {{quote .Remedy}})]
            else list_filter([
                {{- range $i, $fault := .Faults}}{{if $i}},{{end}}
                {{$fault}}
                {{- end}}
            ], f -> f is not null)
        end as faults
    from ({{.Typed}})
    cross join header
    where row in (select row from checked where not readable)
)
select
    $from_file, line, faults[1].column_name, faults[1].value,
    coalesce(faults[1].reason, 'holds a value that is too large') || further(faults), faults[1].remedy, header, fields
from faulty
order by line
