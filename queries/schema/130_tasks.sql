-- Tasks: one system and position in one job, with what its first attempt says of who, where and with what.
--
-- One row: one task.
-- Columns:
--   shop               the shop's identifier
--   job_no             its repair-order number
--   system             system_word
--   position           position_word; null for the system as a whole
--   attempts           how many
--   first_pass         every attempt completed and no method twice
--   is_repeat          two attempts or more and not first pass
--   after_pass         an attempt follows a completed one of the same method
--   last_outcome       of the last attempt
--   numbered_in_order  attempt numbers are 1, 2, … n, or one of them was given by the import
--   started_at         start of the first attempt
--   started_on_date    that start was a date alone
--   attempt_no         of the first attempt
--   technician         of the first attempt
--   bay                of the first attempt
--   equipment          of the first attempt
--   target             of the first attempt
--   method             of the first attempt
--   software_version   of the first attempt
--   job_id             as in known_jobs
--   task_id            as in attempt_order
-- Source: definitions, Calibrations.
with
sums as (                         -- of tasks with several attempts; the first one tells all of the others
    select
        task_id,
        count(*) as attempts,
        bool_and(outcome = 'completed') and not bool_or(repeats_method) as first_pass,
        bool_or(follows_completed) as after_pass,
        arg_max(outcome, nth) as last_outcome,
        bool_or(number_given) or (min(attempt_no) = 1 and max(attempt_no) = count(*)) as numbered_in_order
    from attempts
    semi join (select task_id from attempts where nth = 2) using (task_id)
    group by task_id
)
select
    first.shop, first.job_no, first.system, first.position,
    coalesce(sums.attempts, 1) as attempts,
    coalesce(sums.first_pass, first.outcome = 'completed') as first_pass,
    coalesce(not sums.first_pass, false) as is_repeat,
    coalesce(sums.after_pass, false) as after_pass,
    coalesce(sums.last_outcome, first.outcome) as last_outcome,
    coalesce(sums.numbered_in_order, first.number_given or first.attempt_no = 1) as numbered_in_order,
    first.started_at, first.started_on_date, first.attempt_no, first.technician, first.bay, first.equipment, first.target, first.method,
    first.software_version, first.job_id, first.task_id
from attempts as first
left join sums using (task_id)
where first.nth = 1
