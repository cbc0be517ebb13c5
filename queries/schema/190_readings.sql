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
-- Source: definitions, Evidence (a set of readings).
with
of_attempts as (
    select
        reading.shop, reading.job_no, reading.system, reading.position, reading.attempt_no, reading.quantity,
        reading.value, reading.unit, reading.spec_low, reading.spec_high,
        attempt.started_at as taken_at, attempt.technician, attempt.equipment, attempt.target, attempt.outcome,
        attempt.job_id
    from measurements as reading
    join attempts as attempt
        on attempt.shop = reading.shop and attempt.job_no = reading.job_no and attempt.system = reading.system
        and attempt.position is not distinct from reading.position and attempt.attempt_no = reading.attempt_no
),
of_jobs as (
    select
        reading.shop, reading.job_no, reading.system, reading.position, reading.attempt_no, reading.quantity,
        reading.value, reading.unit, reading.spec_low, reading.spec_high,
        job.opened_at as taken_at, job.technician,
        null::varchar as equipment, null::varchar as target, null::attempt_outcome_word as outcome,
        job.job_id
    from measurements as reading
    join known_jobs as job using (shop, job_no)
    where reading.system is null
)
select
    shop, job_no, system, position, attempt_no, quantity, round(value, 6) as value, unit,
    round(spec_low, 6) as spec_low, round(spec_high, 6) as spec_high,
    outside(value, spec_low, spec_high) as outside, taken_at, technician, equipment, target, outcome,
    job_id
from of_attempts
union all
select
    shop, job_no, system, position, attempt_no, quantity, round(value, 6), unit, round(spec_low, 6), round(spec_high, 6),
    outside(value, spec_low, spec_high), taken_at, technician, equipment, target, outcome,
    job_id
from of_jobs
