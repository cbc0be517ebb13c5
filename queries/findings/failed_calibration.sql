-- Calibration attempts that did not complete.
--
-- One row: one attempt.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word
--   attempt_no  as recorded
--   at          start
--   technician  of the attempt, else of the job
--   detail      failure code and text as the report gives them
-- Finding:
--   name      Attempt not completed
--   means     The equipment reported a failure, or the attempt was broken off.
--   rule      An attempt whose outcome is failed or aborted; one an attempt.
--   page      repeats 10
--   severity  medium
--   identity  keys
-- Classes:
--   failed   failed
--   aborted  aborted
-- Source: definitions, Calibrations.
select
    attempt.outcome as class, attempt.shop, attempt.job_no, attempt.system, attempt.position, attempt.attempt_no,
    attempt.started_at as at, coalesce(attempt.technician, job.technician) as technician,
    coalesce(nullif(concat_ws(' ', attempt.failure_code, attempt.failure_text), ''), 'no reason recorded') as detail
from attempts as attempt
join known_jobs as job using (job_id)
where attempt.outcome <> 'completed'
