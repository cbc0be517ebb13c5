-- How the tasks of a comparison lie in jobs.
--
-- One row.
-- Columns:
--   n              jobs with a task in a group
--   units          their tasks in a group
--   hits           of these, not first pass
--   units_squared  sum over the jobs of tasks times tasks
--   hits_squared   sum over the jobs of hits times hits
--   units_x_hits   sum over the jobs of tasks times hits
-- Parameters:
--   $by    a grouping of task_groups
--   $shop  only this shop; null for all
--   $from  only tasks at or after this moment; null for all
--   $to    only tasks at or before this moment; null for all
--   $without  as in compare
-- Source: definitions, Compare (tasks of one job are alike).
with
taken_out as materialized (
    select distinct task_id
    from task_groups
    where list_contains(string_split($without, chr(30)), grouping || chr(31) || group_name)
),
jobs as (
    select job_id, count(*) as k, count(*) filter (not first_pass) as y
    from task_groups
    anti join taken_out using (task_id)
    where grouping = $by and group_name is not null
        and ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
    group by job_id
)
select
    count(*) as n, coalesce(sum(k), 0)::bigint as units, coalesce(sum(y), 0)::bigint as hits,
    coalesce(sum(k * k), 0)::bigint as units_squared, coalesce(sum(y * y), 0)::bigint as hits_squared,
    coalesce(sum(k * y), 0)::bigint as units_x_hits
from jobs
