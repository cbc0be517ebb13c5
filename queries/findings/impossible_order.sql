-- Moments that cannot have followed one another as recorded.
--
-- One row: one attempt, or one job, and class.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for class visit
--   position    position_word
--   attempt_no  as recorded; null for class visit
--   at          start of the attempt, else the job's opening
--   technician  of the attempt, else of the job
--   detail      the moments
-- Finding:
--   name      Times in an impossible order
--   means     Something is recorded as ending before it began, or outside the visit.
--   rule      An attempt that ends before it starts, that starts before the job opened or starts or ends after it
--             closed, or, on the front camera, that starts before the windshield was in; a job that closed before it
--             opened. One an attempt, or job, and class. A date alone has no order within its day.
--   page      evidence 130
--   severity  medium
--   identity  keys and class
-- Classes:
--   reversed       reversed (ends before it starts)
--   outside_visit  outside the visit
--   before_glass   before the glass was in
--   visit          visit (closed before opened)
-- Source: definitions, Evidence. A moment given as a date alone has no order within its day.
with
timed as (
    select
        attempt.shop, attempt.job_no, attempt.system, attempt.position, attempt.attempt_no, attempt.started_at,
        attempt.ended_at, attempt.started_on_date,
        job.opened_at, job.opened_on_date, job.closed_at, job.closed_on_date,
        coalesce(attempt.technician, job.technician) as led_by,
        case when attempt.system = 'front_camera' then pane.installed_at end as installed_at,
        coalesce(pane.installed_on_date, false) as installed_on_date
    from attempts as attempt
    join known_jobs as job using (job_id)
    left join known_glass as pane
        on pane.job_id = attempt.job_id and pane.position = 'windshield'
),
judged as materialized (         -- few are left, and all three classes read them
    select
        *,
        ended_at < started_at as reversed,
        started_at < opened_at and not unordered(started_at, started_on_date, opened_at, opened_on_date) as early,
        started_at > closed_at and not unordered(started_at, started_on_date, closed_at, closed_on_date)
            or ended_at > closed_at and not unordered(ended_at, false, closed_at, closed_on_date) as late,
        started_at < installed_at and not unordered(started_at, started_on_date, installed_at, installed_on_date)
            as before_glass
    from timed
    where ended_at < started_at or started_at < opened_at or started_at > closed_at or ended_at > closed_at
        or started_at < installed_at
)
select
    'reversed' as class, shop, job_no, system, position, attempt_no, started_at as at, led_by as technician,
    'starts ' || started_at || ', ends ' || ended_at as detail
from judged
where reversed
union all
select
    'outside_visit', shop, job_no, system, position, attempt_no, started_at, led_by,
    concat_ws(', ', 'starts ' || started_at, 'ends ' || ended_at, 'vehicle in ' || opened_at, 'out ' || closed_at)
from judged
where early or late
union all
select
    'before_glass', shop, job_no, system, position, attempt_no, started_at, led_by,
    'starts ' || started_at || ', windshield fitted ' || installed_at
from judged
where before_glass
union all
select
    'visit', shop, job_no, null, null, null, opened_at, technician, 'vehicle in ' || opened_at || ', out ' || closed_at
from known_jobs
where closed_at < opened_at and not unordered(closed_at, closed_on_date, opened_at, opened_on_date)
