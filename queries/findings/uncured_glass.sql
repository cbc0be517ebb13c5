-- Vehicles driven, or front cameras calibrated, before the windshield's adhesive was cured.
--
-- One row: one job and class.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          the earliest such start
--   technician  who led the job
--   detail      minutes since the bead was closed, and minutes required
-- Finding:
--   name      Adhesive not ready
--   means     The vehicle was driven or calibrated before the adhesive's drive-away time was over.
--   rule      A road test or a dynamic attempt, or a static attempt on the front camera, that starts after the
--             windshield's adhesive bead was closed and before its drive-away time was over; one a job and class, the
--             earliest.
--   page      evidence 150
--   severity  high where class is driven; else medium
--   identity  keys and class
-- Classes:
--   driven      driven (a road test or a dynamic attempt)
--   calibrated  calibrated (a static stage of the front camera)
-- Decide:
--   10   where class is driven: Driven before the adhesive was ready. The windshield holds the airbag and the roof only
--        once its adhesive has cured.
--   110  where class is calibrated: Calibrated while the adhesive was still setting. The glass can still move, and the
--        aim with it.
-- Source: definitions, Evidence. That driving before the adhesive maker's drive-away time is unsafe is common practice,
-- no source; the adhesive maker's instructions decide.
with
curing as (
    select job_id, installed_at, drive_away_min,
        installed_at + to_microseconds((drive_away_min * 60000000)::bigint) as cured_at
    from known_glass
    where position = 'windshield' and installed_at is not null and drive_away_min is not null
),
starts as (
    select job_id, 'driven' as class, started_at from known_road_tests
    union all
    select job_id, 'driven', started_at from attempts where method = 'dynamic'
    union all
    select job_id, 'calibrated', started_at
    from attempts
    where system = 'front_camera' and method in ('static', 'static_dynamic')
),
too_early as (
    select class, job_id, min(started_at) as at, any_value(installed_at) as installed_at,
        any_value(drive_away_min) as drive_away_min
    from curing
    join starts using (job_id)
    where started_at >= installed_at and started_at < cured_at
    group by class, job_id
)
select
    class, job.shop, job.job_no, at, job.technician,
    floor(epoch(at - installed_at) / 60)::bigint || ' min after fitting, '
        || format('{:g}', drive_away_min) || ' min required' as detail
from too_early
join known_jobs as job using (job_id)
