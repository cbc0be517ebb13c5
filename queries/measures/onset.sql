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
with
chosen as (
    select job_id, system, position, hits, date_trunc($step, at)::timestamp as starts
    from outcome_units
    where outcome = 'not_first_pass'
        and ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
)
select groups.group_name, chosen.starts, count(*) as n, sum(chosen.hits)::bigint as count
from chosen
join task_groups as groups
    on groups.job_id = chosen.job_id and groups.system = chosen.system
    and groups.position is not distinct from chosen.position
where groups.grouping = $by and groups.group_name is not null
group by groups.group_name, chosen.starts
order by groups.group_name, chosen.starts
