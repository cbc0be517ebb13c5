-- The values of JSON objects as text, one row a record. Records without any value are none.
--
-- One row of read_rows: one record of the file.
-- Parameters:
--   $name_1 …  where the value of the column c1 … stands in the object, a JSON pointer
create or replace temporary table read_rows as
select *
from (
    select
        line, {{len .Texts}} as found,
        case
            when json_type(json) <> 'OBJECT' then 'is not a record of names and values'
            when len(json_keys(json)) <> len(list_distinct(json_keys(json))) then 'has the name '
                || list_filter(json_keys(json), name -> len(list_filter(json_keys(json), other -> other = name)) > 1)[1]
                || ' twice'
        end as misshapen,
        null::varchar as surplus
        {{- range $i, $name := .Texts}},
        json_extract_string(json, ${{$name}}) as c{{inc $i}}
        {{- end}}
    from read_objects
)
where misshapen is not null or concat({{range $i, $name := .Texts}}{{if $i}}, {{end}}c{{inc $i}}{{end}}) <> ''
order by line
