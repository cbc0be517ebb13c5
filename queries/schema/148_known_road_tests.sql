-- Road tests of known jobs started by the moment asked for.
--
-- One row: one road test.
-- Columns:
--   shop             the shop's identifier
--   job_no           its repair-order number
--   test_no          as recorded
--   started_at       start
--   ended_at         end; null where missing or later than the moment asked for
--   started_on_date  started_at was a date alone
--   distance_km      km
--   outcome          test_outcome_word
--   technician       who drove
--   note             as recorded
--   from_file        line of import_files
--   job_id           as in known_jobs
-- Source: definitions, As-of and Attached.
select
    shop, job_no, test_no, started_at, case when ended_at <= as_of then ended_at end as ended_at,
    on_date(test.date_only, 'started_at') as started_on_date, distance_km, outcome, test.technician, note,
    test.from_file, job_id
from road_tests as test
join known_jobs using (shop, job_no)
cross join asked
where started_at <= as_of
