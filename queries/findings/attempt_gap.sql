-- Tasks whose attempt numbers are not 1, 2, … n: a record may have been taken out.
--
-- One row: one task.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word
--   at          start of the first attempt
--   technician  of the first attempt, else of the job
--   detail      the numbers on record
-- Finding:
--   name      Attempt number missing
--   means     Attempt numbers do not run 1, 2, 3: a record may have been taken out.
--   rule      A task whose attempt numbers are not 1, 2 and so on to the last; one a task.
--   page      evidence 50, repeats 40
--   severity  medium
--   identity  keys
-- Source: definitions, Calibrations.
with
broken as (
    select * from tasks where not numbered_in_order
),
numbers as (
    select task_id, string_agg(attempt_no::varchar, ', ' order by attempt_no) as recorded
    from attempts
    semi join broken using (task_id)
    group by task_id
)
select
    task.shop, task.job_no, task.system, task.position, task.started_at as at,
    coalesce(task.technician, job.technician) as technician,
    'attempts on record: ' || recorded as detail
from broken as task
join known_jobs as job using (job_id)
join numbers using (task_id)
