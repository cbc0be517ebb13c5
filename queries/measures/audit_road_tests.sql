-- Road tests of the bundle's jobs.
--
-- One row: one road test.
-- Columns:
--   shop         the shop's identifier
--   job_no       its repair-order number
--   test_no      as recorded
--   started_at   start
--   ended_at     end; empty where it is missing
--   distance_km  km
--   outcome      passed | failed
--   technician   who drove
--   note         as recorded
--   date_only    names of the timestamps that were given as a date alone
select
    shop, job_no, test_no, started_at, ended_at, distance_km, outcome, technician, note,
    case when started_on_date then 'started_at' end as date_only
from known_road_tests
join (select job_id from bundle_jobs) as mine using (job_id)
order by shop, job_no, test_no
