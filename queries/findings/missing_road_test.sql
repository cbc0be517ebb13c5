-- Closed jobs with completed work that was not driven afterwards.
--
-- One row: one job.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the job was closed
--   technician  who led the job
--   detail      when the last completed attempt ended
-- Finding:
--   name      Road test missing
--   means     A calibrated job was closed without a passed road test after it.
--   rule      A closed job whose last completed attempts are neither dynamic nor in part dynamic, without a passed road
--             test that starts when they had ended, or later; one a job.
--   page      evidence 30, told as a share of jobs
--   severity  medium
--   identity  keys
-- Source: definitions, Evidence. That a vehicle is road-tested after calibration is common practice, no source.
with
last_work as (                    -- a dynamic stage is driven, whatever else ended at the same moment
    select
        job_id, max(coalesce(ended_at, started_at)) as done_at,
        max(coalesce(ended_at, started_at)) filter (method in ('dynamic', 'static_dynamic')) as driven_at
    from attempts
    where outcome = 'completed'
    group by job_id
),
last_drives as (
    select job_id, max(started_at) as started_at
    from known_road_tests
    where outcome = 'passed'
    group by job_id
)
select
    job.shop, job.job_no, job.closed_at as at, job.technician,
    'last completed attempt ended ' || strftime(last_work.done_at, '%Y-%m-%d %H:%M') as detail
from last_work
join known_jobs as job using (job_id)
left join last_drives using (job_id)
where job.closed_at is not null
    and coalesce(last_work.driven_at < last_work.done_at, true)
    and coalesce(last_drives.started_at < last_work.done_at, true)
