-- How many tasks each grouping holds, and how many it leaves out because their record lacks the value.
--
-- One row: one grouping.
-- Columns:
--   grouping  a grouping of task_groups
--   n         tasks in a group
--   left_out  tasks that lack the value
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only tasks at or after this moment; null for all
--   $to    only tasks at or before this moment; null for all
-- Source: definitions, Compare.
select grouping, count(group_name) as n, count(*) - count(group_name) as left_out
from task_groups
where ($shop is null or shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
group by grouping
order by grouping
