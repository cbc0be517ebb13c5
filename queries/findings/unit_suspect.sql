-- Distances and heights outside their tolerance that would be inside it in another unit.
--
-- One row: one measurement.
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
--   detail      the value, and what it may have been meant for
-- Finding:
--   name      Wrong unit suspected
--   means     The value fits its tolerance once read as inches, or with its decimal point moved.
--   rule      A distance or height outside its tolerance that is inside it once multiplied or divided by 25.4, or else
--             by 10; judged only where both bounds are on one side of 0 and the farther is less than 8 times the
--             nearer; one a value.
--   page      evidence 120
--   severity  low
--   identity  keys
-- Classes:
--   inch     inches (multiplied or divided by 25.4)
--   tenfold  decimal point (by 10)
-- Source: definitions, Evidence; the inch is 25.4 mm (NIST SP 811, B.8). That a height in inches is a classic slip is
-- common practice, no source.
with
lengths as (
    select * from outside_readings
    where quantity in (
        'target_distance', 'target_offset', 'target_height',
        'ride_height_lf', 'ride_height_rf', 'ride_height_lr', 'ride_height_rr'
    )
),
reread as (
    select *, meant(value, 25.4, spec_low, spec_high) as inches, meant(value, 10, spec_low, spec_high) as tens from lengths
)
select
    case when reread.inches is not null then 'inch' else 'tenfold' end as class,
    reread.shop, reread.job_no, reread.system, reread.position, reread.attempt_no, reread.quantity as subject,
    reread.taken_at as at, coalesce(reread.technician, job.technician) as technician,
    reread.value || ' mm is outside the tolerance, ' || round(coalesce(reread.inches, reread.tens), 1)
        || ' mm would be inside' as detail
from reread
join known_jobs as job using (job_id)
where reread.inches is not null or reread.tens is not null
