-- Files of imports whose balance does not add up, or is not what is on record.
--
-- One row: one line of the journal, or one that is missing from it.
-- Columns:
--   place  the import and its file
--   said   what is wrong
-- Source: record layout, What an import must do.
with
records as (
    select kind, from_file, count(*) as kept from every_record group by kind, from_file
),
aside as (
    select from_file, count(*) as rejects from rejects group by from_file
),
lines as (
    select
        coalesce('import ' || import || ', ' || file || coalesce(' ' || sheet, ''), 'line ' || from_file || ' of the journal')
            || ', ' || coalesce(import_files.kind, records.kind, 'rows set aside') as place,
        import_files.from_file is not null as is_listed, undone_at is not null as is_undone,
        read, added, updated, unchanged, rejected, coalesce(kept, 0) as kept, coalesce(rejects, 0) as rejects, from_file
    from import_files
    full join records using (from_file)
    full join aside using (from_file)
    left join imports using (import)
)
select
    place,
    case
        when not is_listed then 'is not in the journal, and rows on record name it'
        when read <> added + updated + unchanged + rejected
        then format('{} rows were read, and {} are accounted for', read, added + updated + unchanged + rejected)
        when rejects <> rejected then format('{} rows were set aside, and {} are kept', rejected, rejects)
        when is_undone and kept > 0 then format('it was undone, and {} records of it are on record', kept)
        else format('{} records came in, and {} are on record', added + updated, kept)
    end as said
from lines
where not is_listed
    or read <> added + updated + unchanged + rejected
    or rejects <> rejected
    or kept <> case when is_undone then 0 else added + updated end
order by from_file, place
