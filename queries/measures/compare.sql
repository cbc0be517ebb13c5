-- An outcome by group and stratum.
--
-- One row: one group and stratum; rows without a group's name are the units that lack a value.
-- Columns:
--   group_name  null for units that are in no group
--   stratum     what is alike, joined: of a task system, make and model, of a job reason, make and model, without what
--               the grouping itself is made of; null where one of them is missing
--   n           units
--   count       of these, where the outcome occurred
-- Parameters:
--   $by       a grouping of task_groups
--   $outcome  not_first_pass | comeback | post_scan_fault
--   $shop     only this shop; null for all
--   $from     only units at or after this moment; null for all
--   $to       only units at or before this moment; null for all
--   $without  units of these groups are taken out: grouping and group joined by chr(31), joined by chr(30); null for none
-- Source: definitions, Compare and Like with like. A job counts once in every group that its tasks fall in.
with
taken_out as materialized (
    select distinct job_id, task_id
    from task_groups
    where list_contains(string_split($without, chr(30)), grouping || chr(31) || group_name)
),
tasks_in_groups as (              -- a task is in one group, or in none
    select group_name, system::varchar as kind, make, model_name as model, (not first_pass)::bigint as hits
    from task_groups
    anti join taken_out using (task_id)
    where grouping = $by and $outcome = 'not_first_pass'
        and ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
),
units as (
    select job_id, visit.reason::varchar as kind, visit.make, visit.model, hits
    from outcome_units as unit
    join visits as visit using (job_id)
    anti join taken_out using (job_id)
    where outcome = $outcome and $outcome <> 'not_first_pass' and is_rated
        and ($shop is null or unit.shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
),
members as (
    select job_id, kind, units.make, units.model, hits, group_name
    from task_groups
    join units using (job_id)
    where grouping = $by
),
jobs_in_groups as (               -- a job with several tasks can be in several groups, in each once
    select distinct job_id, kind, make, model, hits, group_name from members where group_name is not null
),
jobs_in_none as (                 -- with one task that has the value and one that lacks it a job is in a group
    select distinct job_id, hits
    from (select * from members where group_name is null)
    anti join jobs_in_groups using (job_id)
),
all_units as (
    select group_name, kind, make, model, hits from tasks_in_groups
    union all
    select group_name, kind, make, model, hits from jobs_in_groups
    union all
    select null, null, null, null, hits from jobs_in_none
)
select
    group_name,
    case
        when $by in ('make', 'model') then kind
        when $by = 'system' then make || ' / ' || model
        else kind || ' / ' || make || ' / ' || model
    end as stratum,
    count(*) as n, sum(hits)::bigint as count
from all_units
group by group_name, stratum
order by sum(count(*)) over (partition by group_name) desc, group_name, stratum
