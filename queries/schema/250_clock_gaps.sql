-- How long after a job's last attempt the post-scan was made and the road test began, by the clocks of those who wrote it.
--
-- One row: one job with both moments, to the minute, and what came after.
-- Columns:
--   shop     the shop's identifier
--   job_no   its repair-order number
--   beside   post_scan | road_test
--   minutes  from the last attempt's end to the latest post-scan, or to the start of the latest passed road test; below 0
--            where that came first
--   job_id   as in known_jobs
with
ends as (
    select job_id, max(ended_at) as ended_at from attempts where ended_at is not null group by job_id
),
later as (
    select visit.job_id, 'post_scan' as beside, scan.scanned_at as at
    from visits as visit
    join known_scans as scan on scan.job_id = visit.job_id and scan.scan_no = visit.after_scan_no
    where not scan.scanned_on_date
    union all
    select job_id, 'road_test', max(started_at)
    from known_road_tests
    where outcome = 'passed' and not started_on_date
    group by job_id
)
select shop, job_no, beside, epoch(at - ended_at) / 60 as minutes, job_id
from later
join ends using (job_id)
join known_jobs using (job_id)
