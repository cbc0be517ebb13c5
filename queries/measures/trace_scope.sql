-- Jobs whose records can bear on what is told of one vehicle, or of one job.
--
-- One row: one job.
-- Columns:
--   shop    the shop's identifier
--   job_no  its repair-order number
-- Parameters:
--   $vin     the vehicle's; null for the job alone
--   $shop    the job's shop; null for the vehicle alone
--   $job_no  the job's number; null for the vehicle alone
-- Wider than needed does no harm, narrower would: whatever a finding compares with must be here.
-- Source: definitions, Comebacks, Calibrations (missing_calibration) and Evidence (repeated_readings, overlapping_work).
with
mine as materialized (
    select * from jobs where vin = $vin or (shop = $shop and job_no = $job_no)
),
linked as (
    select prior.shop, prior.job_no
    from mine
    join jobs as prior on prior.shop = mine.shop and prior.job_no = mine.comeback_of
    union all
    select back.shop, back.job_no
    from mine
    join (select * from jobs where comeback_of is not null) as back
        on back.shop = mine.shop and back.comeback_of = mine.job_no
),
without_camera as (
    select lower(make) as make, lower(model) as model, model_year
    from mine
    anti join (select shop, job_no from calibrations where system = 'front_camera') as camera using (shop, job_no)
),
alike as (                        -- a missing calibration is judged by what vehicles like it got
    select jobs.shop, jobs.job_no
    from jobs
    join (select distinct * from without_camera) as missing
        on lower(jobs.make) = missing.make and lower(jobs.model) = missing.model and jobs.model_year = missing.model_year
),
attempts_made as materialized (
    select calibrations.shop, calibrations.technician, started_at, ended_at
    from calibrations
    join (select shop, job_no from mine) as mine using (shop, job_no)
),
crossing as (                     -- one stand or person on two jobs at once
    select other.shop, other.job_no
    from attempts_made as own
    join calibrations as other on other.shop = own.shop
    where other.started_at < own.ended_at and other.ended_at > own.started_at
),
sets as materialized (            -- who measured when
    select shop, technician, started_at as taken_at from attempts_made
    union all
    select shop, technician, opened_at from mine
),
read_near as (                    -- readings that may repeat these, or be repeated by them
    select other.shop, other.job_no
    from sets
    join calibrations as other on other.shop = sets.shop and other.technician = sets.technician
    where other.started_at between taken_at - to_days(30) and taken_at + to_days(30)
    union all
    select other.shop, other.job_no
    from sets
    join jobs as other on other.shop = sets.shop and other.technician = sets.technician
    where other.opened_at between taken_at - to_days(30) and taken_at + to_days(30)
)
select shop, job_no from mine
union
select shop, job_no from linked
union
select shop, job_no from alike
union
select shop, job_no from crossing
union
select shop, job_no from read_near
