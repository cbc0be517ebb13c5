-- Jobs of a group by day, with how their tasks went: the sequences in which a change is looked for.
--
-- One row: jobs of one group that began their first task in it on one day, with as many tasks and hits.
-- Columns:
--   group_name  never null: tasks that lack the value are in no group
--   day         first moment of the day
--   n           tasks of such a job
--   count       of these, not first pass
--   jobs        how many such jobs
-- Parameters:
--   $by     a grouping of task_groups
--   $shop   only this shop; null for all
--   $from   only tasks begun at or after this moment; null for all
--   $to     only tasks begun at or before this moment; null for all
-- Source: definitions, When did it start. A cut lies between days, so the order of a day's jobs does not matter.
with
jobs_in_groups as (
    select
        group_name, job_id, min(started_at)::date::timestamp as day, count(*) as n,
        count(*) filter (not first_pass) as hits
    from task_groups
    where grouping = $by and group_name is not null
        and ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
    group by group_name, job_id
)
select group_name, day, n, hits as count, count(*) as jobs
from jobs_in_groups
group by group_name, day, n, hits
order by group_name, day, n, hits
