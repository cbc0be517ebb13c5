-- Sets of readings that hold all four ride heights.
--
-- One row: one set, of an attempt or of a whole job.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for a set of the whole job
--   position    position_word
--   attempt_no  of the attempt; null for a set of the whole job
--   lf          left front, mm
--   rf          right front, mm
--   lr          left rear, mm
--   rr          right rear, mm
--   taken_at    start of the attempt, or the job's opening
--   technician  the attempt's, or the job's
--   job_id      as in known_jobs
-- Source: definitions, Evidence (a set of readings).
with
sets as materialized (
    select
        attempt_id, job_id, position,
        round(max(value) filter (quantity = 'ride_height_lf'), 6) as lf,
        round(max(value) filter (quantity = 'ride_height_rf'), 6) as rf,
        round(max(value) filter (quantity = 'ride_height_lr'), 6) as lr,
        round(max(value) filter (quantity = 'ride_height_rr'), 6) as rr
    from measured
    where quantity in ('ride_height_lf', 'ride_height_rf', 'ride_height_lr', 'ride_height_rr')
    group by attempt_id, job_id, position
    having count(*) = 4
)
select
    shop, job_no, system, attempt.position, attempt_no, lf, rf, lr, rr, started_at as taken_at, technician, sets.job_id
from sets
join attempts as attempt using (attempt_id)
union all
select shop, job_no, null, position, null, lf, rf, lr, rr, opened_at, technician, job_id
from sets
join known_jobs as job using (job_id)
where attempt_id is null
