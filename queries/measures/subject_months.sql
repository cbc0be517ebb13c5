-- What was done by a person, in a bay, on a stand or with a board, month by month.
--
-- One row: one month with an attempt.
-- Columns:
--   month           2026-03, of the attempt's start
--   attempts        how many
--   not_completed   of these
--   tasks           whose first attempt it was
--   not_first_pass  of these
--   outside         measured values outside their tolerance
--   readings        measured values with a tolerance
-- Parameters:
--   $kind  technician | bay | equipment | target
--   $name  as answers write it
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, Calibrations.
with
own as (
    select attempt_id, task_id, nth, started_at, outcome, strftime(started_at, '%Y-%m') as month
    from attempt_groups
    where grouping = $kind and group_name = $name
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
),
values_taken as (
    select
        month, count(*) filter (outside is not null) as outside,
        count(*) filter (spec_low is not null or spec_high is not null) as readings
    from own
    join measured using (attempt_id)
    group by month
),
work as (
    select
        month, count(*) as attempts, count(*) filter (own.outcome <> 'completed') as not_completed,
        count(*) filter (nth = 1) as tasks, count(*) filter (nth = 1 and not first_pass) as not_first_pass
    from own
    join tasks using (task_id)
    group by month
)
select
    month, attempts, not_completed, tasks, not_first_pass,
    coalesce(outside, 0) as outside, coalesce(readings, 0) as readings     -- no row: nothing was measured
from work
left join values_taken using (month)
order by month
