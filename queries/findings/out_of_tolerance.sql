-- Measured values outside their tolerance in work that was passed as complete.
--
-- One row: one measurement, of a completed attempt or of a whole job that has one.
-- Columns:
--   class       low | high
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for the whole job
--   position    position_word
--   attempt_no  of the attempt; null for the whole job
--   subject     the quantity
--   at          start of the attempt, else the job's opening
--   technician  of the attempt, else of the job
--   detail      value and tolerance
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
