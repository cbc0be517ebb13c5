-- Moments of a file that carry an offset, which is left aside where the import names no zone.
--
-- One row.
-- Columns:
--   moments  how many
--   example  one of them; empty where there are none
--   offsets  the different offsets, at most five of them, separated by commas
with
written as (
    {{- range $i, $text := .Texts}}{{if $i}}
    union all{{end}}
    select {{$text}} as moment from read_rows
    {{- end}}
),
with_offset as (
    select tidy(moment) as moment, regexp_extract(tidy(moment)[11:], '([Zz]|[+-][0-9:]+)$', 1) as shift
    from written
    where regexp_matches(moment, '[0-9]{2}:[0-9]{2}.*([Zz]|[+-][0-9:]+)[[:space:]]*$') and read_moment(moment) is not null
)
select
    count(*)::bigint as moments, coalesce(min(moment), '') as example,
    coalesce(array_to_string(list_sort(list_distinct(list(shift)))[:5], ', '), '') as offsets
from with_offset
