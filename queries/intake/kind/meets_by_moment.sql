-- Which record on file each row of the file meets, where numbers are missing: by its moment first, then by its number.
--
-- One row of meets: one row of the file that meets a record.
-- Columns:
--   row       its place in read_rows
--   old_row   the record's rowid
--   held_row  the record whose number was read that has the row's number already; null where there is none
-- A row of other content meets a record only where the moment has a time of day, and file and history hold one row of
-- it each. A row with a number meets so only records whose number was given.
-- Source: record layout, Records that their source does not number.
create or replace temporary table meets as
with
pairs as (
    select
        dated.row, dated.number, dated.on_date, dated.in_file, old.rowid as old_row, old.{{.Number}} as old_number,
        coalesce(old.number_given, false) as number_given,
        {{if .Foreign}}{{within "checked" "old" .Content}}{{else}}{{alike "checked" "old" .Content}}{{end}} as alike,
        count(*) over (partition by dated.row) as on_record
    from dated
    join checked on checked.row = dated.row
    join {{.Table}} as old
        on {{same "old" "dated" .Among}} and old.{{.At}} = dated.at
        and on_date(old.date_only, '{{.At}}') = dated.on_date
    where dated.repeats_row is null
),
chosen as (                       -- of records of one content the one with the lowest number
    select *
    from pairs
    where (number is null or number_given) and (alike or (not on_date and in_file = 1 and on_record = 1))
    qualify row_number() over (partition by row order by alike desc, old_number) = 1
),
by_moment as (                    -- a record takes one number, from the first row
    select row, number, old_row
    from chosen
    qualify number is null
        or row_number() over (partition by old_row, number is null order by alike desc, row) = 1
),
read_numbers as (
    select dated.row, old.rowid as old_row
    from dated
    join checked on checked.row = dated.row
    join {{.Table}} as old on {{onKey "checked" "old"}}
    where dated.number is not null and not coalesce(old.number_given, false)
)
select by_moment.row, by_moment.old_row, read_numbers.old_row as held_row
from by_moment
left join read_numbers on read_numbers.row = by_moment.row
union all
select row, old_row, null from read_numbers where row not in (select row from by_moment)
