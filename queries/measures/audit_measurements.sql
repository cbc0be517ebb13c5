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
select
    reading.shop, reading.job_no, reading.system, reading.position, reading.attempt_no, reading.quantity,
    reading.value, reading.unit, reading.spec_low, reading.spec_high, reading.outside,
    written.value_written, written.unit_written
from readings as reading
semi join bundle_jobs using (shop, job_no)
join measurements as written
    on written.shop = reading.shop and written.job_no = reading.job_no and written.quantity = reading.quantity
    and written.system is not distinct from reading.system
    and written.position is not distinct from reading.position
    and written.attempt_no is not distinct from reading.attempt_no
order by reading.shop, reading.job_no, reading.system nulls first, reading.position nulls first,
    reading.attempt_no nulls first, reading.quantity
