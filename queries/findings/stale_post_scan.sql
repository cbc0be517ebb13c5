-- Calibrated jobs whose last post scan is older than the work that it should confirm.
--
-- One row: one job.
-- Columns:
--   class       calibration (before the last attempt ended) | road_test (before the last passed road test began)
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the post scan was made
--   technician  who led the job
--   detail      what came after it
-- Source: definitions, Post-scan faults.
with
after as (
    select visit.shop, visit.job_no, visit.technician, scan.scanned_at, scan.scanned_on_date
    from visits as visit
    join known_scans as scan
        on scan.shop = visit.shop and scan.job_no = visit.job_no and scan.scan_no = visit.after_scan_no
    where visit.is_calibrated
),
work as (                         -- an end is never a date alone: such an end is missing
    select
        shop, job_no, 'calibration' as class, coalesce(ended_at, started_at) as done_at,
        ended_at is null and started_on_date as done_on_date
    from attempts
    union all
    select shop, job_no, 'road_test', started_at, started_on_date
    from known_road_tests
    where outcome = 'passed'
),
later_work as (
    select after.*, work.class, work.done_at
    from after
    join work using (shop, job_no)
    where work.done_at > after.scanned_at
        and not unordered(work.done_at, work.done_on_date, after.scanned_at, after.scanned_on_date)
)
select
    min(class) as class,          -- calibration comes before road_test, also in the alphabet
    shop, job_no, scanned_at as at, technician,
    'post-scan ' || strftime(scanned_at, '%Y-%m-%d %H:%M') || ', work until '
        || strftime(max(done_at), '%Y-%m-%d %H:%M') as detail
from later_work
group by shop, job_no, scanned_at, technician
