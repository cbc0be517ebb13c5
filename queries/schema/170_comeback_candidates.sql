-- Earlier jobs that a return visit could be tied to, with the class of the tie.
--
-- One row: one return visit and one earlier job.
-- Columns:
--   shop          the return visit
--   job_no        the return visit
--   prior_shop    the earlier job
--   prior_job_no  the earlier job
--   class         linked | probable | continuation | possible | uncalibrated
-- Source: definitions, Comebacks.
with
links as materialized (                        -- the shop's own links that meet a job they can mean
    select back.shop, back.job_no, prior.shop as prior_shop, prior.job_no as prior_job_no
    from known_jobs as back
    join visits as prior on prior.shop = back.shop and prior.job_no = back.comeback_of
    where prior.job_no <> back.job_no and prior.is_calibrated and prior.opened_at <= back.opened_at
),
pairs as materialized (                        -- visits of one vehicle within the window; a linked visit is settled already
    select
        back.shop, back.job_no, prior.shop as prior_shop, prior.job_no as prior_job_no,
        back.reason in ('warning_light', 'customer_complaint', 'recheck') as is_complaint,
        back.is_calibrated as back_calibrated, back.has_front_camera as back_camera,
        prior.is_calibrated,
        prior.calls_for_camera and not prior.has_front_camera as camera_skipped
    from visits as back
    cross join asked
    join visits as prior
        on prior.vehicle = back.vehicle
        and back.opened_at between prior.closed_at and prior.closed_at + to_days(asked.window_days)
    anti join links on links.shop = back.shop and links.job_no = back.job_no
    where prior.shop <> back.shop or prior.job_no <> back.job_no
),
systems as (                      -- whether the last attempt of every task on a system is not completed
    select shop, job_no, system, bool_and(last_outcome <> 'completed') as left_unfinished
    from tasks
    group by shop, job_no, system
),
shared_systems as (
    select
        pairs.shop, pairs.job_no, pairs.prior_shop, pairs.prior_job_no,
        bool_and(prior.left_unfinished) as left_unfinished
    from pairs
    join systems as back on back.shop = pairs.shop and back.job_no = pairs.job_no
    join systems as prior
        on prior.shop = pairs.prior_shop and prior.job_no = pairs.prior_job_no and prior.system = back.system
    group by all
),
open_systems as (                 -- systems with an open fault in any scan of a job
    select distinct shop, job_no, system
    from known_faults
    where is_open and system is not null
),
returned_faults as (
    select distinct pairs.shop, pairs.job_no, pairs.prior_shop, pairs.prior_job_no
    from pairs
    join open_systems as back on back.shop = pairs.shop and back.job_no = pairs.job_no
    join systems as prior
        on prior.shop = pairs.prior_shop and prior.job_no = pairs.prior_job_no and prior.system = back.system
),
judged as (
    select
        pairs.*,
        shared_systems.shop is not null as overlap,
        coalesce(shared_systems.left_unfinished, false) as left_unfinished,
        returned_faults.shop is not null as returned_fault,
        back_camera or camera_faults.shop is not null as camera_again
    from pairs
    left join shared_systems using (shop, job_no, prior_shop, prior_job_no)
    left join returned_faults using (shop, job_no, prior_shop, prior_job_no)
    left join open_systems as camera_faults
        on camera_faults.shop = pairs.shop and camera_faults.job_no = pairs.job_no
        and camera_faults.system = 'front_camera'
),
classed as (
    select
        shop, job_no, prior_shop, prior_job_no,
        case
            when is_calibrated and is_complaint and left_unfinished then 'continuation'
            when is_calibrated and is_complaint and (overlap or returned_fault) then 'probable'
            when is_calibrated and is_complaint and not back_calibrated then 'possible'
            when is_calibrated and not is_complaint and overlap then 'possible'
            when camera_skipped and is_complaint and camera_again then 'uncalibrated'
        end as class
    from judged
)
select shop, job_no, prior_shop, prior_job_no, 'linked' as class
from links
union all
select shop, job_no, prior_shop, prior_job_no, class
from classed
where class is not null
