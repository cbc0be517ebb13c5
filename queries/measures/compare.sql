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
tasks_in_groups as (              -- a task is in one group, or in none
    select group_name, (not first_pass)::bigint as hits
    from task_groups
    where grouping = $by and $outcome = 'not_first_pass'
        and ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
),
units as (
    select job_id, hits
    from outcome_units
    where outcome = $outcome and $outcome <> 'not_first_pass' and is_rated
        and ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
),
members as (
    select job_id, hits, group_name
    from task_groups
    join units using (job_id)
    where grouping = $by
),
jobs_in_groups as (               -- a job with several tasks can be in several groups, in each once
    select distinct job_id, hits, group_name from members where group_name is not null
),
jobs_in_none as (                 -- with one task that has the value and one that lacks it a job is in a group
    select distinct job_id, hits
    from (select * from members where group_name is null)
    anti join jobs_in_groups using (job_id)
)
select group_name, count(*) as n, sum(hits)::bigint as count
from (
    select group_name, hits from tasks_in_groups
    union all
    select group_name, hits from jobs_in_groups
    union all
    select null, hits from jobs_in_none
)
group by group_name
order by n desc, group_name
