-- Measured values of known attempts and known jobs, as numbers.
--
-- One row: one measurement.
-- Columns:
--   attempt_id    as in attempt_order; null for a measurement of the whole job
--   job_id        as in known_jobs
--   position      position_word
--   quantity      quantity_word
--   value         in unit
--   unit          the quantity's stored unit
--   spec_low      lower bound of the tolerance, in unit; null where open
--   spec_high     upper bound of the tolerance, in unit; null where open
--   outside       low | high; null where the value is inside its tolerance, or has none
--   value_written the value's text
--   unit_written  the unit beside it
--   from_file     line of import_files
-- Measurements are many: who took them and when is in readings, and is looked up for those that are asked for.
-- Source: definitions, Evidence (a set of readings).
with
owned as (
    select
        attempt_id, job_id, reading.position, quantity, value, unit, spec_low, spec_high, value_written, unit_written,
        reading.from_file
    from owned_readings as reading
    join attempts using (attempt_id)
    union all
    select
        null, job_id, position, quantity, value, unit, spec_low, spec_high, value_written, unit_written,
        reading.from_file
    from measurements as reading
    join known_jobs using (shop, job_no)
    where system is null
)
select
    attempt_id, job_id, position, quantity, value, unit, spec_low, spec_high,
    -- rounding keeps the order, so that only values beyond a bound need be rounded
    case when value < spec_low or value > spec_high then outside(value, spec_low, spec_high) end as outside,
    value_written, unit_written, from_file
from owned
