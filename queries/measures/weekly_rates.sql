-- Outcomes of tasks by group and week.
--
-- One row: one group and week in which it began a task.
-- Columns:
--   group_name  never null: tasks that lack the value are in no group
--   starts      first moment of the week (ISO 8601)
--   n           tasks
--   count       of these, not first pass
-- Parameters:
--   $by     a grouping of task_groups
--   $shop   only this shop; null for all
--   $from   only tasks begun at or after this moment; null for all
--   $to     only tasks begun at or before this moment; null for all
-- Source: definitions, Compare.
select
    group_name, date_trunc('week', started_at)::timestamp as starts, count(*) as n,
    count(*) filter (not first_pass) as count
from task_groups
where grouping = $by and group_name is not null
    and ($shop is null or shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
group by group_name, starts
order by group_name, starts
