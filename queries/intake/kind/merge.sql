-- Fill the gaps of rows that came through a profile from the records that they meet.
update checked set
    {{- range $i, $c := .Gaps}}{{if $i}},{{end}}
    {{$c}} = coalesce(checked.{{$c}}, old.{{$c}})
    {{- end}}
    {{- if .Moments}}{{if .Gaps}},{{end}}
    date_only = nullif(concat_ws(' '
        {{- range .Moments}},
        case when on_date(case when checked.{{.}} is not null or on_date(checked.date_only, '{{.}}')
            then checked.date_only else old.date_only end, '{{.}}') then '{{.}}' end
        {{- end}}), '')
    {{- end}}
from meets
join {{.Table}} as old on old.rowid = meets.old_row
where meets.row = checked.row
