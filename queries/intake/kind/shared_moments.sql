-- How many records share their moment with others, among those that an import has brought.
--
-- One row.
-- Columns:
--   records  how many
--   example  one of the moments
-- Parameters:
--   $import  the import
with
brought as (
    select distinct {{list "old" .Among}}, old.{{.At}} as at, on_date(old.date_only, '{{.At}}') as on_date
    from {{.Table}} as old
    join import_files using (from_file)
    where import = $import and old.known_as is not null
),
shared as (
    select
        count(*) as records, {{knownAt "old"}} as example
    from brought
    join {{.Table}} as old
        on {{same "old" "brought" .Among}} and old.{{.At}} = brought.at
        and on_date(old.date_only, '{{.At}}') = brought.on_date
    group by {{list "old" .Among}}, example
    having count(*) > 1
)
select coalesce(sum(records), 0)::bigint as records, coalesce(min(example), '') as example
from shared
