-- The single readings of one stand or board and quantity, in order of time.
--
-- One row: one reading.
-- Columns:
--   taken_at    start of the attempt
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word; null for the system as a whole
--   attempt_no  of the attempt
--   value       in unit
--   unit        the quantity's stored unit
--   half_width  half of the tolerance's width, in unit
--   deviation   from the middle of the tolerance, in half widths
-- Parameters:
--   $by        equipment | target
--   $group     the stand, as shop/equipment, or the board
--   $quantity  as in drift_readings
--   $shop      only this shop; null for all
--   $from      only readings of attempts started at or after this moment; null for all
--   $to        only readings of attempts started at or before this moment; null for all
-- Source: definitions, Evidence (unit_suspect). Readings that a slip of the unit explains are left out.
select taken_at, shop, job_no, system, position, attempt_no, value, unit, half_width, deviation
from drift_readings
where not is_slip
    and case $by when 'equipment' then equipment when 'target' then target end = $group
    and quantity::varchar = $quantity
    and ($shop is null or shop = $shop)
    and ($from is null or taken_at >= $from::timestamp)
    and ($to is null or taken_at <= $to::timestamp)
order by taken_at, shop, job_no, system, position, attempt_no
