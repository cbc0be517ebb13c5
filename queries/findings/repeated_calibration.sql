-- Tasks with two attempts or more that are not first pass.
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
--   detail      how many attempts, and how the last ended
-- Finding:
--   name      Calibration repeated
--   means     The same calibration was done more than once in one visit.
--   rule      A task with two attempts or more that is not first pass: after a pass where an attempt follows a
--             completed one of the same method, else after a failure; one a task.
--   page      repeats 20
--   severity  medium
--   identity  keys
-- Classes:
--   after_pass     after a pass (an attempt follows a completed one of the same method)
--   after_failure  after a failure
-- Source: definitions, Calibrations.
select
    case when task.after_pass then 'after_pass' else 'after_failure' end as class,
    task.shop, task.job_no, task.system, task.position, task.started_at as at,
    coalesce(task.technician, job.technician) as technician,
    task.attempts || ' attempts, the last ' || task.last_outcome as detail
from tasks as task
join known_jobs as job using (job_id)
where task.is_repeat
