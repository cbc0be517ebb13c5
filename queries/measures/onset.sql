-- Outcomes of tasks by group and span of time: the sequences in which a change is looked for.
--
-- One row: one group and one day or week in which it began a task.
-- Columns:
--   group_name  never null: tasks that lack the value are in no group
--   starts      first moment of the day or week
--   n           tasks
--   count       of these, not first pass
-- Parameters:
--   $by     technician | bay | equipment | target | supplier | software_version
--   $step   day | week (ISO 8601)
--   $shop   only this shop; null for all
--   $from   only tasks begun at or after this moment; null for all
--   $to     only tasks begun at or before this moment; null for all
-- Source: definitions, When did it start; groups as in Compare.
select
    group_name, date_trunc($step, started_at)::timestamp as starts, count(*) as n,
    count(*) filter (not first_pass) as count
from task_groups
where grouping = $by and group_name is not null
    and ($shop is null or shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
group by group_name, starts
order by group_name, starts
