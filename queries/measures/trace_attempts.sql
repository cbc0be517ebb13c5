-- Calibration attempts in the jobs asked for.
--
-- One row: one attempt.
-- Columns:
--   shop              the shop's identifier
--   job_no            its repair-order number
--   system            system_word
--   position          position_word; null for the system as a whole
--   attempt_no        as recorded
--   method            method_word
--   started_at        start
--   ended_at          end; null where missing
--   started_on_date   started_at was a date alone
--   outcome           attempt_outcome_word
--   failure_code      as the report gives it
--   failure_text      as the report gives it
--   technician        who made it
--   bay               where
--   equipment         stand or frame
--   target            board
--   software_version  of the calibration equipment
--   procedure         the maker's procedure followed
--   provider          provider_word
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
)
select
    shop, job_no, system, position, attempt_no, method, started_at, ended_at, started_on_date, outcome,
    failure_code, failure_text, technician, bay, equipment, target, software_version, procedure, provider
from attempts
join named using (shop, job_no)
order by shop, job_no, system, position nulls first, nth
