-- Measurements on record with the attempt that they were made in, whenever that was.
--
-- One row: one measurement whose attempt is on record.
-- Columns:
--   attempt_id     the attempt as a number
--   reading_id     the measurement as a number
--   position       position_word
--   quantity       quantity_word
--   value          in unit
--   unit           the quantity's stored unit
--   spec_low       lower bound of the tolerance, in unit; null where open
--   spec_high      upper bound of the tolerance, in unit; null where open
--   value_written  the value's text
--   unit_written   the unit beside it
--   from_file      line of import_files
-- A measurement names its attempt by a number that was read, by the name of the attempt that came in one row with it, or
-- else by its moment, where exactly one attempt of the task on record has it.
-- Source: record layout, Records that their source does not number.
with
without_number as (
    select *, rowid as reading_id from measurements where attempt_no is null and system is not null
),
sole_moments as (
    select
        shop, job_no, system, position, started_at, on_date(date_only, 'started_at') as on_date,
        min(calibrations.rowid) as attempt_id
    from calibrations
    semi join (select shop, job_no from without_number where known_as is null) as wanted using (shop, job_no)
    group by shop, job_no, system, position, started_at, on_date
    having count(*) = 1
)
select
    attempt.rowid as attempt_id, reading.rowid as reading_id, reading.position, quantity, value, unit, spec_low, spec_high, value_written, unit_written,
    reading.from_file
from measurements as reading
join calibrations as attempt
    on attempt.shop = reading.shop and attempt.job_no = reading.job_no and attempt.system = reading.system
    and attempt.position is not distinct from reading.position and attempt.attempt_no = reading.attempt_no
where attempt.number_given is null
union all
select
    attempt.rowid, reading_id, reading.position, quantity, value, unit, spec_low, spec_high, value_written, unit_written,
    reading.from_file
from without_number as reading
join calibrations as attempt
    on attempt.shop = reading.shop and attempt.job_no = reading.job_no and attempt.system = reading.system
    and attempt.position is not distinct from reading.position and attempt.known_as = reading.known_as
union all
select
    attempt_id, reading_id, reading.position, quantity, value, unit, spec_low, spec_high, value_written, unit_written,
    reading.from_file
from without_number as reading
join sole_moments as moment
    on moment.shop = reading.shop and moment.job_no = reading.job_no and moment.system = reading.system
    and moment.position is not distinct from reading.position and moment.started_at = reading.started_at
    and moment.on_date = on_date(reading.date_only, 'started_at')
where reading.known_as is null
