-- Tasks of closed jobs whose last attempt is not completed.
--
-- One row: one task.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word
--   at          start of the first attempt
--   technician  of the first attempt, else of the job
--   detail      how many attempts, and when the vehicle left
-- Finding:
--   name      Calibration left unfinished
--   means     The job was closed and the last attempt had not completed.
--   rule      A task of a closed job whose last attempt is not completed; one a task.
--   page      repeats 30
--   severity  high
--   identity  keys
-- Classes:
--   failed   failed
--   aborted  aborted
-- Decide:
--   20   Closed with a calibration that did not complete. The system may brake or steer on a wrong aim.
-- Source: definitions, Calibrations.
select
    task.last_outcome as class, task.shop, task.job_no, task.system, task.position, task.started_at as at,
    coalesce(task.technician, job.technician) as technician,
    case when task.attempts = 1 then 'the only attempt ' else 'the last of ' || task.attempts || ' attempts ' end
        || task.last_outcome || '; the vehicle left '
        || strftime(job.closed_at, '%Y-%m-%d %H:%M') as detail
from tasks as task
join known_jobs as job using (job_id)
where job.closed_at is not null and task.last_outcome <> 'completed'
