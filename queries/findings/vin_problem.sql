-- Jobs whose vehicle identification number is missing, malformed, or fails its check digit.
--
-- One row: one job.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the job was opened
--   technician  who led the job
--   detail      what is wrong
-- Finding:
--   name      Vehicle number problem
--   means     The VIN is missing, malformed or has a wrong check digit: other visits of this vehicle may not be found.
--   rule      A job whose VIN is missing, is not 17 letters and digits without I, O and Q, or begins with 1 to 5 and
--             has another character in position 9 than its check digit; one a job.
--   page      evidence 180
--   severity  low
--   identity  keys
-- Classes:
--   missing      missing
--   malformed    malformed
--   check_digit  wrong check digit
-- Source: definitions, Evidence; 49 CFR 565.15(c). Position 9 is a check digit only where the number begins with 1 to 5.
with
judged as (
    select
        *,
        case
            when vin_form <> 'well_formed' then vin_form
            when vin[1] between '1' and '5' and vin[9] <> vin_check_digit(vin) then 'check_digit'
        end as class
    from known_jobs
)
select
    class, shop, job_no, opened_at as at, technician,
    case class
        when 'missing' then 'no VIN on record'
        when 'malformed' then 'not 17 letters and digits without I, O and Q'
        else 'position 9 is ' || vin[9] || ', the other characters call for ' || vin_check_digit(vin)
    end as detail
from judged
where class is not null
