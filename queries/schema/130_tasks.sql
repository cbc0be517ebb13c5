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
--   numbered_in_order  attempt numbers are 1, 2, … n
--   started_at         start of the first attempt
--   attempt_no         of the first attempt
--   technician         of the first attempt
--   bay                of the first attempt
--   equipment          of the first attempt
--   target             of the first attempt
--   method             of the first attempt
--   software_version   of the first attempt
--   job_id             as in known_jobs
-- Source: definitions, Calibrations.
with
sums as (
    select
        job_id, system, position,
        count(*) as attempts,
        bool_and(outcome = 'completed') and not bool_or(repeats_method) as first_pass,
        bool_or(follows_completed) as after_pass,
        arg_max(outcome, nth) as last_outcome,
        min(attempt_no) = 1 and max(attempt_no) = count(*) as numbered_in_order
    from attempts
    group by job_id, system, position
)
select
    first.shop, first.job_no, first.system, first.position,
    sums.attempts, sums.first_pass, sums.attempts > 1 and not sums.first_pass as is_repeat,
    sums.after_pass, sums.last_outcome, sums.numbered_in_order,
    first.started_at, first.attempt_no, first.technician, first.bay, first.equipment, first.target, first.method,
    first.software_version, first.job_id
from attempts as first
join sums
    on sums.job_id = first.job_id and sums.system = first.system
    and sums.position is not distinct from first.position
where first.nth = 1
