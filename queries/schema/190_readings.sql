-- Measured values of known attempts and known jobs, with who took them and when.
--
-- One row: one measurement.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for a measurement of the whole job
--   position    position_word; null for the system as a whole
--   attempt_no  of the attempt; null for a measurement of the whole job
--   quantity    quantity_word
--   value       in unit, rounded to 1e-6
--   unit        the quantity's stored unit
--   spec_low    lower bound of the tolerance, inside it; null where there is none
--   spec_high   upper bound of the tolerance, inside it; null where there is none
--   outside     low | high | null where inside or no tolerance is known
--   taken_at    start of the attempt, or the job's opening
--   technician  the attempt's, or the job's
--   equipment   the attempt's stand or frame
--   target      the attempt's board
--   outcome     the attempt's; null for the whole job
--   job_id      as in known_jobs
--   attempt_id  as in attempt_order; null for a measurement of the whole job
-- Source: definitions, Evidence (a set of readings).
select
    shop, job_no, system, attempt.position, attempt_no, quantity, round(value, 6) as value, unit,
    round(spec_low, 6) as spec_low, round(spec_high, 6) as spec_high, outside,
    started_at as taken_at, technician, equipment, target, outcome, measured.job_id, attempt_id
from measured
join attempts as attempt using (attempt_id)
union all
select
    shop, job_no, null, position, null, quantity, round(value, 6), unit, round(spec_low, 6), round(spec_high, 6), outside,
    opened_at, technician, null, null, null, job_id, attempt_id
from measured
join known_jobs as job using (job_id)
where attempt_id is null
