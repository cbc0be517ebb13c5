-- How many hits groups of different groupings have in common.
--
-- One row: two groups that share a hit, or one group with itself: all of its hits.
-- Columns:
--   one     grouping and group, joined by chr(31)
--   other   grouping and group, joined by chr(31)
--   shared  units of the outcome with a hit that are in both
-- Parameters:
--   $outcome  not_first_pass | comeback | post_scan_fault
--   $groups   these groups, joined by chr(30)
--   $from     only units at or after this moment; null for all
--   $to       only units at or before this moment; null for all
-- Source: definitions, What stands out (folding).
with
members as materialized (
    select grouping || chr(31) || group_name as name, job_id, task_id, not first_pass as is_missed, started_at
    from task_groups
    where list_contains(string_split($groups, chr(30)), grouping || chr(31) || group_name)
),
hits as (
    select name, task_id as unit
    from members
    where $outcome = 'not_first_pass' and is_missed
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
    union all
    select distinct name, job_id
    from members
    join outcome_units as unit using (job_id)
    where unit.outcome = $outcome and $outcome <> 'not_first_pass' and unit.is_rated and unit.hits > 0
        and ($from is null or unit.at >= $from::timestamp)
        and ($to is null or unit.at <= $to::timestamp)
)
select one.name as one, other.name as other, count(*) as shared
from hits as one
join hits as other using (unit)
group by one.name, other.name
order by one.name, other.name
