-- Sets of four ride heights that the same technician recorded on another vehicle within the 30 days before.
--
-- One row: one set.
-- Columns:
--   shop              the shop's identifier
--   job_no            its repair-order number
--   system            system_word; null for the whole job
--   position          position_word
--   attempt_no        of the attempt; null for the whole job
--   at                start of the attempt, else the job's opening
--   technician        who recorded both
--   prior_shop        the most recent such set
--   prior_job_no      the most recent such set
--   prior_system      the most recent such set
--   prior_position    the most recent such set
--   prior_attempt_no  the most recent such set
--   detail            the heights
-- Finding:
--   name      Same readings on two vehicles
--   means     The four ride heights are those that were recorded on another vehicle shortly before.
--   rule      A set of four ride heights, at least three of them different, that the same technician of the shop
--             recorded on another vehicle at most 30 days earlier; one a set.
--   page      evidence 110
--   severity  medium
--   identity  keys
-- Source: definitions, Evidence.
with
telling as (                      -- at least three of the four differ: no more than one pair of them is equal
    select heights.*, job.vehicle
    from ride_heights as heights
    join known_jobs as job using (job_id)
    where job.vehicle is not null and (lf = rf)::integer + (lf = lr)::integer + (lf = rr)::integer
        + (rf = lr)::integer + (rf = rr)::integer + (lr = rr)::integer <= 1
),
repeats as (
    select
        later.*, prior.shop as prior_shop, prior.job_no as prior_job_no, prior.system as prior_system,
        prior.position as prior_position, prior.attempt_no as prior_attempt_no,
        row_number() over (
            partition by later.shop, later.job_no, later.system, later.position, later.attempt_no
            -- the order of sets; the last keys only decide between sets of one moment
            order by prior.taken_at desc, prior.job_no desc, prior.system desc nulls last,
                prior.position desc nulls last, prior.attempt_no desc nulls last
        ) as recency
    from telling as later
    join telling as prior
        on prior.shop = later.shop and prior.technician = later.technician
        and prior.lf = later.lf and prior.rf = later.rf and prior.lr = later.lr and prior.rr = later.rr
        and prior.vehicle <> later.vehicle
        and prior.taken_at between later.taken_at - to_days(30) and later.taken_at
    where prior.taken_at < later.taken_at or prior.job_no < later.job_no
)
select
    shop, job_no, system, position, attempt_no, taken_at as at, technician,
    prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no,
    'ride heights ' || lf || ', ' || rf || ', ' || lr || ', ' || rr || ' mm as on the job named' as detail
from repeats
where recency = 1
