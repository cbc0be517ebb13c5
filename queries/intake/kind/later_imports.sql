-- Imports that have replaced a record of another.
--
-- One row: one import.
-- Columns:
--   replaced_by  its number
-- Parameters:
--   $import  the import whose records they replaced
with
replaced as (
    {{- range $i, $kind := .Kinds}}{{if $i}}
    union all{{end}}
    select from_file, replaced_by from superseded.{{$kind}}
    {{- end}}
)
select distinct replaced_by
from replaced
join import_files using (from_file)
where import = $import and replaced_by > $import
order by replaced_by
