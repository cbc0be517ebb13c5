-- People, bays, stands and boards that a name names: as answers write it, or as the record has it.
--
-- One row: one of them; at most six, for more would not help to choose.
-- Columns:
--   name   as answers write it
--   steps  letters to change, add, leave out or swap for the name asked for; 0 where it is named
-- Parameters:
--   $kind  technician | bay | equipment | target
--   $key   the name asked for; a board may be written with a shop that used it
-- A third of the letters is too far to be near. Those that are named come alone.
with
names as (
    select distinct group_name, own_name, shop || '/' || own_name as with_shop from attempt_groups where grouping = $kind
),
near as (
    select
        group_name as name,
        min(least(
            damerau_levenshtein(lower(group_name), lower($key)), damerau_levenshtein(lower(own_name), lower($key)),
            damerau_levenshtein(lower(with_shop), lower($key))
        )) filter (group_name <> $key and own_name <> $key and with_shop <> $key) as far,
        bool_or(group_name = $key or own_name = $key or with_shop = $key) as is_named
    from names
    group by group_name
)
select name, case when is_named then 0 else far end as steps
from near
where is_named or far * 3 <= length($key)
qualify steps = min(steps) over ()
order by name
limit 6
