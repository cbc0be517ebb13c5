-- Pairs of attempts on different vehicles that share a moment in one bay or by one technician.
--
-- One row: one pair and class, raised on the later attempt.
-- Columns:
--   class             one of the classes below
--   shop              the shop's identifier
--   job_no            the later attempt
--   system            the later attempt
--   position          the later attempt
--   attempt_no        the later attempt
--   at                start of the later attempt
--   technician        of the later attempt, else of its job
--   prior_shop        the earlier attempt
--   prior_job_no      the earlier attempt
--   prior_system      the earlier attempt
--   prior_position    the earlier attempt
--   prior_attempt_no  the earlier attempt
--   detail            the bay or technician, and both times
-- Finding:
--   name      Two vehicles at once
--   means     One bay or one technician is on record with two vehicles at the same moment.
--   rule      Two attempts on different vehicles of one shop that share a moment in one bay or by one technician; one a
--             pair and class, on the later attempt.
--   page      evidence 140
--   severity  medium
--   identity  keys and class
-- Classes:
--   bay         bay
--   technician  technician
-- Source: definitions, Evidence.
with
claims as materialized (                  -- who and what an attempt takes up; numbers, for they are sorted
    select 'bay' as class, hash('bay', shop, bay) as resource, attempt_id, job_id, started_at, ended_at
    from attempts
    where ended_at > started_at and bay is not null
    union all
    select 'technician', hash('technician', shop, technician), attempt_id, job_id, started_at, ended_at
    from attempts
    where ended_at > started_at and technician is not null
),
crossing as (                     -- claims that begin with another, or while an earlier one still runs
    select *
    from claims
    qualify
        started_at < max(ended_at) over (
            partition by resource order by started_at rows between unbounded preceding and 1 preceding)
        or started_at = lead(started_at) over (partition by resource order by started_at)
),
pairs as (
    select later.class, later.attempt_id, prior.attempt_id as prior_attempt_id
    from crossing as later
    join claims as prior on prior.resource = later.resource and prior.class = later.class
    where prior.job_id <> later.job_id and later.started_at < prior.ended_at and prior.started_at <= later.started_at
),
named as (                        -- a digest may stand for two names, so the names are compared
    select
        pairs.class, attempt.*, prior.job_no as prior_job_no, prior.system as prior_system,
        prior.position as prior_position, prior.attempt_no as prior_attempt_no,
        prior.started_at as prior_started_at, prior.ended_at as prior_ended_at, prior.job_id as prior_job_id,
        case pairs.class when 'bay' then attempt.bay else attempt.technician end as resource
    from pairs
    join attempts as attempt on attempt.attempt_id = pairs.attempt_id
    join attempts as prior on prior.attempt_id = pairs.prior_attempt_id
    where prior.shop = attempt.shop
        and resource = case pairs.class when 'bay' then prior.bay else prior.technician end
        and (prior.started_at < attempt.started_at or prior.job_no < attempt.job_no)
)
select
    class, named.shop, named.job_no, system, position, attempt_no, started_at as at,
    coalesce(named.technician, job.technician) as technician,
    named.shop as prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no,
    resource || ': ' || strftime(started_at, '%Y-%m-%d %H:%M') || ' to '
        || strftime(ended_at, '%Y-%m-%d %H:%M') || ' and ' || strftime(prior_started_at, '%Y-%m-%d %H:%M')
        || ' to ' || strftime(prior_ended_at, '%Y-%m-%d %H:%M') as detail
from named
join known_jobs as job on job.job_id = named.job_id
join known_jobs as prior_job on prior_job.job_id = prior_job_id
where not coalesce(prior_job.vehicle = job.vehicle, false)       -- one vehicle may have two jobs open at once
