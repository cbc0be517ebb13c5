-- What was different at the next attempt after one that did not complete, and whether that one completed.
--
-- One row: one thing that can change, changed or not, and if so from which value to which; the thing "nothing" is changed
-- in pairs that differ in nothing on record.
-- Columns:
--   what        a field, a quantity, or nothing
--   is_changed  it changed; else the pairs could be compared and did not differ in it
--   before      a field's value, or where a quantity lay: low | high | inside | no tolerance; null where missing
--   after       the same, of the next attempt; both null where it did not change
--   n           pairs
--   completed   of these, with the next attempt completed
--   shift       middle (median) difference of a quantity, in unit; null for a field
--   unit        the quantity's
-- Parameters:
--   $system  only this system; null for all
--   $shop    only this shop; null for all
--   $from    only pairs whose later attempt started at or after this moment; null for all
--   $to      only pairs whose later attempt started at or before this moment; null for all
-- Source: definitions, What changed.
with
compared as materialized (
    select
        pair, what, is_changed,
        case when is_changed then before end as before, case when is_changed then after end as after,
        value_after - value_before as shift, unit, next_outcome = 'completed' as is_completed
    from compared_attempts
    where outcome <> 'completed'
        and ($system is null or system = $system)
        and ($shop is null or shop = $shop)
        and ($from is null or next_started_at >= $from::timestamp)
        and ($to is null or next_started_at <= $to::timestamp)
),
whole_pairs as (
    select not bool_or(is_changed) as is_changed, any_value(is_completed) as is_completed
    from compared
    group by pair
)
select
    what, is_changed, before, after, count(*) as n, count(*) filter (is_completed) as completed,
    round(median(shift), 6) as shift, any_value(unit) as unit
from compared
group by what, is_changed, before, after
union all
select 'nothing', is_changed, null, null, count(*), count(*) filter (is_completed), null, null
from whole_pairs
group by is_changed
order by what, is_changed, n desc, before nulls last, after nulls last
