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
    select shop, job_no, system, position, hits
    from outcome_units
    where outcome = $outcome and is_rated
        and ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
),
groups as (
    select distinct
        shop, job_no,
        case when $outcome = 'not_first_pass' then system end as system,
        case when $outcome = 'not_first_pass' then position end as position,
        group_name
    from task_groups
    where grouping = $by
),
members as (
    select groups.group_name, units.*
    from units
    join groups
        on groups.shop = units.shop and groups.job_no = units.job_no
        and groups.system is not distinct from units.system
        and groups.position is not distinct from units.position
    -- a job with one task that has the value and one that lacks it is in a group, and not left out
    qualify groups.group_name is not null or bool_and(groups.group_name is null)
        over (partition by units.shop, units.job_no, units.system, units.position)
)
select group_name, count(*) as n, sum(hits)::bigint as count
from members
group by group_name
order by n desc, group_name
