-- Measured values in the jobs asked for.
--
-- One row: one measurement.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for a measurement of the whole job
--   position    position_word; null for the system as a whole
--   attempt_no  of the attempt; null for a measurement of the whole job
--   quantity    quantity_word
--   value       in unit
--   unit        the quantity's stored unit
--   spec_low    lower bound of the tolerance; null where there is none
--   spec_high   upper bound of the tolerance; null where there is none
--   outside     low | high | null where inside or no tolerance is known
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
select shop, job_no, system, position, attempt_no, quantity, value, unit, spec_low, spec_high, outside
from readings
where list_contains(string_split($jobs, chr(30)), shop || chr(31) || job_no)
order by shop, job_no, system nulls first, position nulls first, attempt_no, quantity
