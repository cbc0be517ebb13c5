-- What is counted for each outcome.
--
-- One row: one unit of one outcome: a task, or a job (its system and position are null).
-- Columns:
--   outcome   not_first_pass | comeback | post_scan_fault | open_faults
--   shop      the shop's identifier
--   job_no    its repair-order number
--   system    of the task
--   position  of the task
--   at        when the unit falls: first attempt, closing, or the post scan
--   is_rated  takes part in rates: always, but for a comeback only where the job has matured
--   job_id    as in known_jobs
--   task_id   as in attempt_order; null for a job
--   hits      1 where the outcome occurred, else 0; for open_faults how many
-- Source: definitions, Trends and comparisons.
with
left_faults as (
    select
        job_id,
        count(*) as open_faults,
        count(*) filter (class in ('new', 'remaining')) as compared_faults
    from post_scan_faults
    where stage = 'post' and is_open
    group by job_id
),
scanned_jobs as materialized (
    select
        visit.job_id, visit.shop, visit.job_no, visit.after_scanned_at, visit.before_scan_no is not null as has_before,
        coalesce(open_faults, 0) as open_faults,            -- no row means that no code was open
        coalesce(compared_faults, 0) as compared_faults
    from visits as visit
    left join left_faults on left_faults.job_id = visit.job_id
    where visit.is_calibrated and visit.after_scan_no is not null
)
select
    'not_first_pass' as outcome, shop, job_no, system, position, started_at as at, true as is_rated, job_id, task_id,
    (not first_pass)::bigint as hits
from tasks
union all
select 'comeback', shop, job_no, null, null, closed_at, matured, job_id, null, (matured and came_back)::bigint
from follow_ups
union all
select 'post_scan_fault', shop, job_no, null, null, after_scanned_at, true, job_id, null, (compared_faults > 0)::bigint
from scanned_jobs
where has_before
union all
select 'open_faults', shop, job_no, null, null, after_scanned_at, true, job_id, null, open_faults
from scanned_jobs
