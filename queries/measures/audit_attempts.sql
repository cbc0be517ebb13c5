-- Calibration attempts of the bundle's jobs.
--
-- One row: one attempt.
-- Columns:
--   shop              the shop's identifier
--   job_no            its repair-order number
--   system            driver-assistance system
--   position          which of several like sensors; empty for the system as a whole
--   attempt_no        as recorded
--   method            static | dynamic | static_dynamic
--   started_at        start
--   ended_at          end; empty where it is missing
--   outcome           completed | failed | aborted
--   failure_code      as the calibration report gives it
--   failure_text      as the calibration report gives it
--   technician        who made it
--   bay               where
--   equipment         stand or frame
--   target            board
--   software_version  of the calibration equipment
--   procedure         the maker's procedure followed
--   provider          in_house | mobile | sublet
--   date_only         names of the timestamps that were given as a date alone
select
    shop, job_no, system, position, attempt_no, method, started_at, ended_at, outcome, failure_code, failure_text,
    technician, bay, equipment, target, software_version, procedure, provider,
    case when started_on_date then 'started_at' end as date_only
from attempts
join (select job_id from bundle_jobs) as mine using (job_id)
order by shop, job_no, started_at, system, position nulls first, attempt_no
