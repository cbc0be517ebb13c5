-- The number and the name under which each row of the file is stored.
--
-- One row of named: one row of the file that is a record of its own, new or met.
-- Columns:
--   row           its place in read_rows
--   number        as read, as the record that it meets has it, or given: the one after the highest ever in its task
--   known_as      moment and place of a record that was first known by its moment; null for others
--   number_given  the number was given
-- A record that was here before, undone since, gets its own number and name back where nothing else has taken them.
-- Numbers are given in the order of moments, and among rows of one moment in that of the file.
-- Source: record layout, Records that their source does not number.
create or replace temporary table named as
with
wanted as (
    select
        checked.row, {{list "checked" .Task}}, checked.{{.At}} as at, {{knownAt "checked"}} as known_at,
        {{digest "checked"}} as content
    from checked
    join fates on fates.row = checked.row
    where fate = 'added' and checked.{{.Number}} is null
),
tasks as (
    select distinct {{list "" .Task}} from wanted
),
standing as (
    select {{list "tasks" .Task}}, old.{{.Number}} as number, old.known_as
    from tasks
    join {{.Table}} as old on {{same "old" "tasks" .Task}}
    union all
    select {{list "tasks" .Task}}, checked.{{.Number}}, null
    from tasks
    join checked on {{same "checked" "tasks" .Task}}
    where checked.readable and checked.{{.Number}} is not null
),
ever_given as (
    select wanted_in.*, given.number, given.known_as, given.content
    from tasks as wanted_in
    join given_numbers as given on given.kind = '{{.Table}}' and {{same "given" "wanted_in" .Task}}
),
ever as (
    select {{list "" .Task}}, number from standing
    union all select {{list "" .Task}}, number from ever_given
    union all
    select {{list "tasks" .Task}}, old.{{.Number}}
    from tasks
    join superseded.{{.Table}} as old on {{same "old" "tasks" .Task}}
),
highest as (
    select {{list "" .Task}}, max(number) as number from ever group by {{list "" .Task}}
),
free as (                         -- numbers that the very record had before
    select wanted.row, {{list "wanted" .Task}}, given.number, given.known_as
    from wanted
    join ever_given as given on {{same "given" "wanted" .Task}} and given.content = wanted.content
    left join standing as number_of on {{same "number_of" "wanted" .Task}} and number_of.number = given.number
    left join standing as name_of on {{same "name_of" "wanted" .Task}} and name_of.known_as = given.known_as
    where number_of.number is null and name_of.number is null
),
own as (
    select *
    from (select * from free qualify row_number() over (partition by row order by number, known_as) = 1)
    qualify row_number() over (partition by {{list "" .Task}}, number order by row) = 1
        and row_number() over (partition by {{list "" .Task}}, known_as order by row) = 1
),
places as (
    select {{list "" .Task}}, split_part(known_as, ' #', 1) as known_at, max(split_part(known_as, ' #', 2)::integer) as place
    from ever_given
    where known_as is not null
    group by all
),
rest as (
    select
        wanted.row,
        coalesce(highest.number, 0) + row_number() over (partition by {{list "wanted" .Task}} order by wanted.at, wanted.row)
            as number,
        wanted.known_at || ' #' || (coalesce(places.place, 0)
            + row_number() over (partition by {{list "wanted" .Task}}, wanted.known_at order by wanted.row)) as known_as
    from wanted
    left join highest on {{same "highest" "wanted" .Task}}
    left join places on {{same "places" "wanted" .Task}} and places.known_at = wanted.known_at
    where wanted.row not in (select row from own)
)
select row, number, known_as, true as number_given from own
union all
select row, number, known_as, true from rest
union all
select
    checked.row, coalesce(checked.{{.Number}}, old.{{.Number}}), old.known_as,
    case when checked.{{.Number}} is null then old.number_given end
from checked
join fates on fates.row = checked.row
left join {{.Table}} as old on old.rowid = fates.old_row
where (fate in ('updated', 'unchanged') and fates.old_row is not null) or (fate = 'added' and checked.{{.Number}} is not null)
