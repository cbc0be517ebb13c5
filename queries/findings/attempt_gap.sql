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
-- Source: definitions, Calibrations.
with
broken as (
    select * from tasks where not numbered_in_order
),
numbers as (
    select
        task.shop, task.job_no, task.system, task.position,
        string_agg(attempt.attempt_no::varchar, ', ' order by attempt.attempt_no) as recorded
    from broken as task
    join attempts as attempt
        on attempt.shop = task.shop and attempt.job_no = task.job_no and attempt.system = task.system
        and attempt.position is not distinct from task.position
    group by task.shop, task.job_no, task.system, task.position
)
select
    task.shop, task.job_no, task.system, task.position, task.started_at as at,
    coalesce(task.technician, job.technician) as technician,
    'attempts on record: ' || recorded as detail
from broken as task
join known_jobs as job using (shop, job_no)
join numbers
    on numbers.shop = task.shop and numbers.job_no = task.job_no and numbers.system = task.system
    and numbers.position is not distinct from task.position
