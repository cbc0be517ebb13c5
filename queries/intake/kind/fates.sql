-- What becomes of each readable row of the file.
--
-- One row of fates: one readable row.
-- Columns:
--   row        its place in read_rows
--   old_row    the record that it meets; null where there is none
--   first_row  the row of the file that it repeats; null for most
--   held_row   the record that has its number already; null for most
--   fate       added | updated | unchanged | second (of its key, with other content) | held (its number is another's)
create or replace temporary table fates as
select
    checked.row, meets.old_row, coalesce(repeats.first_row{{if and .ByMoment (not .Owner)}}, dated.repeats_row{{end}}) as first_row, meets.held_row,
    case
        when repeats.row is not null then case when same then 'unchanged' else 'second' end
        {{- if and .ByMoment (not .Owner)}}
        when dated.repeats_row is not null then 'unchanged'
        {{- end}}
        when held_row is not null then 'held'
        when old_row is null then 'added'
        {{- if and .ByMoment (not .Owner)}}
        when checked.{{.Number}} is not null and old.number_given then 'updated'      -- the number is new
        {{- end}}
        {{- if and .Owner .ByMoment}}
        when checked.known_as is not null and old.known_as is null then 'updated'     -- now it is known whose it is
        {{- end}}
        when {{alike "checked" "old" .Content}} then 'unchanged'
        else 'updated'
    end as fate
from checked
left join repeats on repeats.row = checked.row
{{- if and .ByMoment (not .Owner)}}
left join dated on dated.row = checked.row
{{- end}}
left join meets on meets.row = checked.row
left join {{.Table}} as old on old.rowid = meets.old_row
where checked.readable
