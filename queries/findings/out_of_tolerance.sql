-- Measured values outside their tolerance in work that was passed as complete.
--
-- One row: one measurement, of a completed attempt or of a whole job that has one.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for the whole job
--   position    position_word
--   attempt_no  of the attempt; null for the whole job
--   subject     the quantity
--   at          start of the attempt, else the job's opening
--   technician  of the attempt, else of the job
--   detail      value and tolerance
-- Finding:
--   name      Reading outside its tolerance
--   means     A calibration was recorded as completed with a measured value outside its bounds.
--   rule      A measured value outside its tolerance, compared rounded to a millionth of its unit, of a completed
--             attempt or of a whole job that has one; the bounds are inside; one a value.
--   page      evidence 90
--   severity  medium
--   identity  keys
-- Classes:
--   low   low
--   high  high
-- Source: definitions, Evidence.
with
completed_jobs as (
    select distinct job_id from attempts where outcome = 'completed'
)
select
    reading.outside as class, reading.shop, reading.job_no, reading.system, reading.position, reading.attempt_no,
    reading.quantity as subject, reading.taken_at as at, coalesce(reading.technician, job.technician) as technician,
    reading.value || ' ' || reading.unit || ', tolerance ' || coalesce(reading.spec_low::varchar, 'open') || ' to '
        || coalesce(reading.spec_high::varchar, 'open') as detail
from outside_readings as reading
join known_jobs as job using (job_id)
left join completed_jobs on completed_jobs.job_id = reading.job_id
where reading.outcome = 'completed' or (reading.system is null and completed_jobs.job_id is not null)
