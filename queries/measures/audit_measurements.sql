-- Measured values of the bundle's jobs and their attempts.
--
-- One row: one measurement.
-- Columns:
--   shop          the shop's identifier
--   job_no        its repair-order number
--   system        of the attempt; empty for a measurement of the whole job
--   position      of the attempt
--   attempt_no    of the attempt
--   quantity      what was measured
--   value         in unit, rounded to 1e-6
--   unit          the quantity's own unit
--   spec_low      lower bound of the procedure's tolerance, inside it
--   spec_high     upper bound of the procedure's tolerance, inside it
--   outside       low | high; empty where the value is inside or no tolerance is recorded
--   value_written the value as the source wrote it
--   unit_written  the unit as the source wrote it
with
wanted as materialized (
    select measured.* from measured join (select job_id from bundle_jobs) as mine using (job_id)
)
select
    shop, job_no, system, attempt.position, attempt_no, quantity, round(value, 6) as value, unit,
    round(spec_low, 6) as spec_low, round(spec_high, 6) as spec_high, outside, value_written, unit_written
from wanted
join attempts as attempt using (attempt_id)
union all
select
    shop, job_no, null, position, null, quantity, round(value, 6), unit, round(spec_low, 6), round(spec_high, 6), outside,
    value_written, unit_written
from wanted
join known_jobs using (job_id)
where attempt_id is null
order by shop, job_no, system nulls first, position nulls first, attempt_no nulls first, quantity
