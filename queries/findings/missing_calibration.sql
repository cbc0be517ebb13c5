-- Closed jobs without any attempt on the system that they call for.
--
-- One row: one job and system called for.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      front_camera; null for an alignment, which calls for whatever the vehicle has
--   at          when the job was closed
--   technician  who led the job
--   detail      why a calibration was called for
-- Finding:
--   name      Calibration missing
--   means     The work calls for a calibration and none is on record.
--   rule      A closed job with windshield or camera work and no attempt on the front camera, where the vehicle is
--             known from any of its jobs to have one, or at least 10 other such jobs of its make, model and year are on
--             record and at least 90 % of them have an attempt; not where another job of the vehicle completed it from
--             the opening to 7 days after the closing. Or a closed job after alignment or suspension work without any
--             attempt, of a vehicle with an attempt in another job.
--   page      evidence 10, told as a share of jobs
--   severity  high where class is equipped; else medium
--   identity  keys
-- Classes:
--   equipped   known to have the system
--   likely     vehicles like it have it
--   alignment  alignment
-- Decide:
--   30   where class is equipped: Closed without the calibration that the work calls for. The vehicle is known to have
--        the system, and nobody has aimed it since the work.
--   100  where class is likely: Closed without a calibration that vehicles like it get. Nearly all others of this make,
--        model and year were calibrated after the same work.
-- In an audit bundle each insurer's jobs are judged alone (judged_together).
-- Source: definitions, Calibrations; In an audit bundle. That a windshield, a camera off or an alignment calls for
-- calibration is common practice, no source; the maker's procedure decides.
with
camera_calls as (                 -- closed jobs that meet the windshield condition, of all outcomes
    select visits.*, bench
    from visits
    join judged_together using (job_id)
    where closed_at is not null and calls_for_camera
),
alike as (
    select bench, make, model, model_year, count(*) as jobs, count(*) filter (has_front_camera) as with_camera
    from camera_calls
    where make is not null and model is not null and model_year is not null
    group by bench, make, model, model_year
),
camera_missing as materialized (
    select * from camera_calls where not has_front_camera
),
their_visits as materialized (    -- all visits of the few vehicles in question
    select visits.*, bench
    from visits
    join judged_together using (job_id)
    semi join camera_missing using (bench, vehicle)
),
camera_seen as (
    select job_id from visits where has_front_camera
    union all
    select job_id from known_faults where system = 'front_camera'
),
equipped as (
    select distinct bench, vehicle from their_visits semi join camera_seen using (job_id)
),
passes as materialized (
    select bench, visit.vehicle, attempt.started_at
    from their_visits as visit
    join attempts as attempt using (job_id)
    where attempt.system = 'front_camera' and attempt.outcome = 'completed'
),
elsewhere as (                    -- calibrated under another repair order within the week
    select distinct bench, missing.job_id
    from camera_missing as missing
    join passes using (bench, vehicle)
    where started_at between opened_at and closed_at + to_days(7)
),
camera_judged as (
    select
        case
            when equipped.vehicle is not null then 'equipped'
            -- the job itself is one of its like and has no attempt, so it is taken off the count
            when alike.jobs - 1 >= 10 and alike.with_camera * 10 >= (alike.jobs - 1) * 9 then 'likely'
        end as class,
        missing.*, alike.with_camera, alike.jobs - 1 as others
    from camera_missing as missing
    left join equipped using (bench, vehicle)
    left join alike using (bench, make, model, model_year)
    anti join elsewhere using (bench, job_id)
),
alignments as (
    select visits.*, bench
    from visits
    join judged_together using (job_id)
    where closed_at is not null and reason in ('wheel_alignment', 'suspension_work') and not is_calibrated
),
calibrated as (
    select distinct bench, vehicle
    from visits
    join judged_together using (job_id)
    semi join alignments using (bench, vehicle)
    where is_calibrated
),
called_for as (
    select
        class, shop, job_no, 'front_camera' as system, closed_at, technician, bench,
        case class
            when 'equipped' then 'windshield or camera work, the vehicle has a front camera, none was calibrated'
            else 'windshield or camera work, none calibrated; of ' || others || ' others of the model year '
                || with_camera || ' were'
        end as detail
    from camera_judged
    where class is not null
    union all
    select
        'alignment', shop, job_no, null, closed_at, technician, bench,
        replace(reason::varchar, '_', ' ') || ', the vehicle has systems that were calibrated before, none was this time'
    from alignments
    semi join calibrated using (bench, vehicle)
)
select
    class, shop, job_no, system, closed_at as at, technician,
    case
        when bench = '' then detail
        else 'judged on this insurer''s jobs alone; a calibration on another order is not seen'
    end as detail
from called_for
