-- Remember the highest number of each task among the records that an undoing takes away: it is never given again.
--
-- Parameters:
--   $import  the import that is undone
insert into given_numbers (kind, {{list "" .Task}}, number)
with
gone as (
    select {{list "" .Task}}, {{.Number}} as number, from_file from {{.Table}}
    union all
    select {{list "" .Task}}, {{.Number}}, from_file from superseded.{{.Table}} where replaced_by = $import
)
select '{{.Table}}', {{list "" .Task}}, max(number)
from gone
join import_files using (from_file)
where import = $import
group by {{list "" .Task}}
