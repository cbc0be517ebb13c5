-- Road tests in the jobs asked for.
--
-- One row: one road test.
-- Columns:
--   shop             the shop's identifier
--   job_no           its repair-order number
--   test_no          as recorded
--   started_at       start
--   ended_at         end; null where missing
--   started_on_date  started_at was a date alone
--   distance_km      km
--   outcome          test_outcome_word
--   technician       who drove
--   note             as recorded
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
)
select shop, job_no, test_no, started_at, ended_at, started_on_date, distance_km, outcome, technician, note
from known_road_tests
join named using (shop, job_no)
order by shop, job_no, started_at, test_no
