-- Closed jobs with completed work that was not driven afterwards.
--
-- One row: one job.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the job was closed
--   technician  who led the job
--   detail      when the last completed attempt ended
-- Source: definitions, Evidence. That a vehicle is road-tested after calibration is common practice, no source.
with
completed as (
    select shop, job_no, method, coalesce(ended_at, started_at) as done_at
    from attempts
    where outcome = 'completed'
    qualify done_at = max(done_at) over (partition by shop, job_no)
),
last_work as (                    -- a dynamic stage is driven, whatever else ended at the same moment
    select shop, job_no, any_value(done_at) as done_at
    from completed
    group by shop, job_no
    having not bool_or(coalesce(method in ('dynamic', 'static_dynamic'), false))
),
last_drives as (
    select shop, job_no, max(started_at) as started_at
    from known_road_tests
    where outcome = 'passed'
    group by shop, job_no
)
select
    job.shop, job.job_no, job.closed_at as at, job.technician,
    'last completed attempt ended ' || strftime(last_work.done_at, '%Y-%m-%d %H:%M') as detail
from last_work
join known_jobs as job using (shop, job_no)
left join last_drives using (shop, job_no)
where job.closed_at is not null and coalesce(last_drives.started_at < last_work.done_at, true)
