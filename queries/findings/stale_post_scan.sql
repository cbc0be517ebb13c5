-- Calibrated jobs whose last post scan is older than the work that it should confirm.
--
-- One row: one job.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the post scan was made
--   technician  who led the job
--   detail      what came after it
-- Finding:
--   name      Scan after came too early
--   means     Work went on after the last scan, so the scan does not show its result.
--   rule      A calibrated job whose latest scan after was made before the latest end among its attempts, or else
--             before its latest passed road test began; one a job.
--   page      evidence 70, told as a share of jobs
--   severity  medium
--   identity  keys
-- Classes:
--   calibration  calibration (before the last attempt ended)
--   road_test    road test (before the last passed road test began)
-- Source: definitions, Post-scan faults.
with
work as (                         -- an end is never a date alone: such an end is missing
    select
        job_id, 'calibration' as class, coalesce(ended_at, started_at) as done_at,
        ended_at is null and started_on_date as done_on_date
    from attempts
    union all
    select job_id, 'road_test', started_at, started_on_date
    from known_road_tests
    where outcome = 'passed'
),
later_work as (
    select visit.job_id, visit.shop, visit.job_no, visit.technician, visit.after_scan_no, work.class, work.done_at,
        work.done_on_date
    from visits as visit
    join work on work.job_id = visit.job_id and work.done_at > visit.after_scanned_at
    where visit.is_calibrated
)
select
    min(class) as class,          -- calibration comes before road_test, also in the alphabet
    later_work.shop, later_work.job_no, scan.scanned_at as at, later_work.technician,
    'post-scan ' || strftime(scan.scanned_at, '%Y-%m-%d %H:%M') || ', work until '
        || strftime(max(done_at), '%Y-%m-%d %H:%M') as detail
from later_work
join known_scans as scan on scan.job_id = later_work.job_id and scan.scan_no = later_work.after_scan_no
where not unordered(done_at, done_on_date, scan.scanned_at, scan.scanned_on_date)
group by later_work.shop, later_work.job_no, scan.scanned_at, later_work.technician
