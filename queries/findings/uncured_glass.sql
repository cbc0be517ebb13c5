-- Vehicles driven, or front cameras calibrated, before the windshield's adhesive was cured.
--
-- One row: one job and class.
-- Columns:
--   class       driven (a road test or a dynamic attempt) | calibrated (a static stage of the front camera)
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          the earliest such start
--   technician  who led the job
--   detail      minutes since the bead was closed, and minutes required
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
