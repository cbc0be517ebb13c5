-- Records that were replaced, and do not lead on to the record that stands in their place.
--
-- One row: one replaced record.
-- Columns:
--   place  the record
--   said   what is wrong
with
replaced as (
    select * from every_record where is_replaced
),
of_these_keys as (                -- with the import that each of them came in
    select kind, key, import
    from every_record
    semi join replaced using (kind, key)
    join import_files using (from_file)
),
later as (
    select distinct kind, key, import as replaced_by from of_these_keys
)
select
    replaced.kind || ' ' || replaced.name as place,
    case
        when imports.import is null then 'import ' || replaced_by || ' replaced it, and is not in the journal'
        when undone_at is not null then 'import ' || replaced_by || ' replaced it, and was undone'
        else 'import ' || replaced_by || ' replaced it, and left nothing in its place'
    end as said
from replaced
left join imports on imports.import = replaced_by
where undone_at is not null or imports.import is null
    or (kind, key, replaced_by) not in (select (kind, key, replaced_by) from later)
order by place, said
