-- An outcome by group.
--
-- One row: one group, and one row without a name for the units that lack a value.
-- Columns:
--   group_name  null for units that are in no group
--   n           units
--   count       of these, where the outcome occurred
-- Parameters:
--   $by       a grouping of task_groups
--   $outcome  not_first_pass | comeback | post_scan_fault
--   $shop     only this shop; null for all
--   $from     only units at or after this moment; null for all
--   $to       only units at or before this moment; null for all
-- Source: definitions, Compare. A job counts once in every group that its tasks fall in.
with
units as (
    select job_id, system, position, hits
    from outcome_units
    where outcome = $outcome and is_rated
        and ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
),
memberships as (
    select distinct
        job_id,
        case when $outcome = 'not_first_pass' then system end as system,
        case when $outcome = 'not_first_pass' then position end as position,
        group_name
    from task_groups
    where grouping = $by
),
groups as (                       -- a job with one task that has the value and one that lacks it is in a group
    select job_id, system, position, group_name from memberships where group_name is not null
    union all
    select job_id, system, position, null
    from memberships
    group by job_id, system, position
    having count(group_name) = 0
)
select groups.group_name, count(*) as n, sum(units.hits)::bigint as count
from units
join groups
    on groups.job_id = units.job_id
    and groups.system is not distinct from units.system
    and groups.position is not distinct from units.position
group by groups.group_name
order by n desc, groups.group_name
