-- Earlier jobs that a return visit could be tied to, with the class of the tie.
--
-- One row: one return visit and one earlier job.
-- Columns:
--   shop          the return visit
--   job_no        the return visit
--   prior_shop    the earlier job
--   prior_job_no  the earlier job
--   job_id        of the return visit, as in known_jobs
--   prior_job_id  of the earlier job
--   class         linked | probable | continuation | possible | uncalibrated
-- Source: definitions, Comebacks.
with
links as materialized (           -- the shop's own links that meet a job they can mean
    select back.job_id, prior.job_id as prior_job_id
    from (select * from known_jobs where comeback_of is not null) as back
    join visits as prior on prior.shop = back.shop and prior.job_no = back.comeback_of
    where prior.job_id <> back.job_id and prior.is_calibrated and prior.opened_at <= back.opened_at
),
pairs as materialized (           -- visits of one vehicle within the window; a linked visit is settled already
    select
        back.job_id, prior.job_id as prior_job_id,
        back.reason in ('warning_light', 'customer_complaint', 'recheck') as is_complaint,
        back.is_calibrated as back_calibrated, back.has_front_camera as back_camera,
        prior.is_calibrated,
        prior.calls_for_camera and not prior.has_front_camera as camera_skipped
    from visits as back
    cross join asked
    join visits as prior
        on prior.vehicle = back.vehicle and prior.job_id <> back.job_id
        and back.opened_at between prior.closed_at and prior.closed_at + to_days(window_days)
    anti join links on links.job_id = back.job_id
),
paired as (
    select job_id from pairs union select prior_job_id from pairs
),
systems as materialized (         -- whether the last attempt of every task on a system is not completed
    select job_id, system, bool_and(last_outcome <> 'completed') as left_unfinished
    from tasks
    semi join paired using (job_id)
    group by job_id, system
),
shared_systems as (
    select pairs.job_id, pairs.prior_job_id, bool_and(prior.left_unfinished) as left_unfinished
    from pairs
    join systems as back on back.job_id = pairs.job_id
    join systems as prior on prior.job_id = pairs.prior_job_id and prior.system = back.system
    group by pairs.job_id, pairs.prior_job_id
),
open_systems as materialized (    -- systems with an open fault in any scan of a job
    select distinct job_id, system
    from known_faults
    semi join paired using (job_id)
    where is_open and system is not null
),
returned_faults as (
    select distinct pairs.job_id, pairs.prior_job_id
    from pairs
    join open_systems as back on back.job_id = pairs.job_id
    join systems as prior on prior.job_id = pairs.prior_job_id and prior.system = back.system
),
judged as (
    select
        pairs.*,
        shared_systems.job_id is not null as overlap,
        coalesce(shared_systems.left_unfinished, false) as left_unfinished,
        returned_faults.job_id is not null as returned_fault,
        back_camera or camera_faults.job_id is not null as camera_again
    from pairs
    left join shared_systems
        on shared_systems.job_id = pairs.job_id and shared_systems.prior_job_id = pairs.prior_job_id
    left join returned_faults
        on returned_faults.job_id = pairs.job_id and returned_faults.prior_job_id = pairs.prior_job_id
    left join open_systems as camera_faults
        on camera_faults.job_id = pairs.job_id and camera_faults.system = 'front_camera'
),
classed as (
    select
        job_id, prior_job_id,
        case
            when is_calibrated and is_complaint and left_unfinished then 'continuation'
            when is_calibrated and is_complaint and (overlap or returned_fault) then 'probable'
            when is_calibrated and is_complaint and not back_calibrated then 'possible'
            when is_calibrated and not is_complaint and overlap then 'possible'
            when camera_skipped and is_complaint and camera_again then 'uncalibrated'
        end as class
    from judged
    union all
    select job_id, prior_job_id, 'linked' from links
)
select
    back.shop, back.job_no, prior.shop as prior_shop, prior.job_no as prior_job_no,
    classed.job_id, prior_job_id, class
from classed
join known_jobs as back on back.job_id = classed.job_id
join known_jobs as prior on prior.job_id = prior_job_id
where class is not null
