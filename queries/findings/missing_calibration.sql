-- Closed jobs without any attempt on the system that they call for.
--
-- One row: one job and system called for.
-- Columns:
--   class       equipped (the vehicle is known to have the camera) | likely (its like almost always has) | alignment
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      front_camera; null for an alignment, which calls for whatever the vehicle has
--   at          when the job was closed
--   technician  who led the job
--   detail      why a calibration was called for
-- Source: definitions, Calibrations. That a windshield, a camera off or an alignment calls for calibration is common
-- practice, no source; the maker's procedure decides.
with
vehicles_with_camera as (
    select vehicle from visits where vehicle is not null and has_front_camera
    union
    select vehicle
    from visits
    semi join (select shop, job_no from known_faults where system = 'front_camera') using (shop, job_no)
    where vehicle is not null
),
vehicles_calibrated as (
    select distinct vehicle from visits where vehicle is not null and is_calibrated
),
camera_calls as (                 -- closed jobs that meet the windshield condition, of all outcomes
    select shop, job_no, vehicle, lower(make) as make, lower(model) as model, model_year, opened_at, closed_at,
        technician, has_front_camera
    from visits
    where closed_at is not null and calls_for_camera
),
alike as (
    select make, model, model_year, count(*) as jobs, count(*) filter (has_front_camera) as with_camera
    from camera_calls
    where make is not null and model is not null and model_year is not null
    group by make, model, model_year
),
camera_passes as (                -- completed attempts by vehicle, wherever they were made
    select job.vehicle, attempt.started_at
    from attempts as attempt
    join known_jobs as job using (shop, job_no)
    where attempt.system = 'front_camera' and attempt.outcome = 'completed' and job.vehicle is not null
),
camera_missing as (
    select
        case
            when vehicles_with_camera.vehicle is not null then 'equipped'
            -- the job itself is one of its like and has no attempt, so it is taken off the count
            when alike.jobs - 1 >= 10 and alike.with_camera * 10 >= (alike.jobs - 1) * 9 then 'likely'
        end as class,
        missing.shop, missing.job_no, missing.vehicle, missing.opened_at, missing.closed_at, missing.technician,
        alike.with_camera, alike.jobs - 1 as others
    from camera_calls as missing
    left join vehicles_with_camera using (vehicle)
    left join alike using (make, model, model_year)
    where not missing.has_front_camera
),
elsewhere as (                    -- calibrated under another repair order within the week
    select distinct shop, job_no
    from camera_missing
    join camera_passes using (vehicle)
    where started_at between opened_at and closed_at + to_days(7)
)
select
    class, shop, job_no, 'front_camera' as system, closed_at as at, technician,
    case class
        when 'equipped' then 'windshield or camera work, the vehicle has a front camera, none was calibrated'
        else 'windshield or camera work, none calibrated; of ' || others || ' others of the model year '
            || with_camera || ' were'
    end as detail
from camera_missing
anti join elsewhere using (shop, job_no)
where class is not null
union all
select
    'alignment', shop, job_no, null, closed_at, technician,
    replace(reason::varchar, '_', ' ') || ', the vehicle has systems that were calibrated before, none was this time'
from visits
where closed_at is not null and reason in ('wheel_alignment', 'suspension_work') and not is_calibrated
    and vehicle in (select vehicle from vehicles_calibrated)
