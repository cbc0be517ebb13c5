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
-- Source: definitions, Evidence (a set of readings).
select
    any_value(shop) as shop, any_value(job_no) as job_no, system, position, attempt_no,
    max(value) filter (quantity = 'ride_height_lf') as lf,
    max(value) filter (quantity = 'ride_height_rf') as rf,
    max(value) filter (quantity = 'ride_height_lr') as lr,
    max(value) filter (quantity = 'ride_height_rr') as rr,
    any_value(taken_at) as taken_at, any_value(technician) as technician      -- all the same within the set
from readings
where quantity in ('ride_height_lf', 'ride_height_rf', 'ride_height_lr', 'ride_height_rr')
group by job_id, system, position, attempt_no
having count(*) = 4
