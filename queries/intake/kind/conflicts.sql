-- Where a record on file has another value than the row of another program that meets it.
--
-- One row: one value.
-- Columns:
--   line   of the source
--   field  the column
--   old    the value on file
--   new    the row's
--   file   that the value on file came from
--   total  how many there are
-- Parameters:
--   $most  so many are told one by one
with
conflicts as (
    {{- range $i, $c := .Filled}}{{if $i}}
    union all{{end}}
    select
        meets.row, old.from_file, '{{$c}}' as field, old.{{$c}}::varchar as old, checked.{{$c}}::varchar as new
    from meets
    join checked on checked.row = meets.row
    join {{$.Table}} as old on old.rowid = meets.old_row
    where old.{{$c}} <> checked.{{$c}}
    {{- end}}
)
select line, field, old, new, coalesce(file, 'this import') as file, count(*) over () as total
from conflicts
join read_rows on read_rows.rowid = conflicts.row
left join import_files using (from_file)
order by line, field
limit $most
