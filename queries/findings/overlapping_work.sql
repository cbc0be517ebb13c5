-- Pairs of attempts on different vehicles that share a moment in one bay or by one technician.
--
-- One row: one pair and class, raised on the later attempt.
-- Columns:
--   class             bay | technician
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
-- Source: definitions, Evidence.
with
claims as (                       -- who and what an attempt takes up; the digest only makes them quicker to sort
    select
        class, resource, hash(class, shop, resource) as digest,
        shop, job_no, system, position, attempt_no, started_at, ended_at
    from (
        select 'bay' as class, bay as resource, * from attempts
        union all
        select 'technician', technician, * from attempts
    )
    where ended_at > started_at and resource is not null
),
crossing as (                     -- claims that begin with another, or while an earlier one still runs
    select *
    from claims
    qualify
        started_at < max(ended_at) over (
            partition by digest order by started_at rows between unbounded preceding and 1 preceding)
        or started_at = lead(started_at) over (partition by digest order by started_at)
),
pairs as (
    select
        later.*, prior.job_no as prior_job_no, prior.system as prior_system, prior.position as prior_position,
        prior.attempt_no as prior_attempt_no, prior.started_at as prior_started_at, prior.ended_at as prior_ended_at
    from crossing as later
    join claims as prior
        on prior.class = later.class and prior.shop = later.shop and prior.resource = later.resource
    where prior.job_no <> later.job_no and later.started_at < prior.ended_at
        and (prior.started_at < later.started_at
            or (prior.started_at = later.started_at and prior.job_no < later.job_no))
)
select
    pairs.class, pairs.shop, pairs.job_no, pairs.system, pairs.position, pairs.attempt_no, pairs.started_at as at,
    coalesce(attempt.technician, job.technician) as technician,
    pairs.shop as prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no,
    resource || ': ' || strftime(pairs.started_at, '%Y-%m-%d %H:%M') || ' to '
        || strftime(pairs.ended_at, '%Y-%m-%d %H:%M') || ' and ' || strftime(prior_started_at, '%Y-%m-%d %H:%M')
        || ' to ' || strftime(prior_ended_at, '%Y-%m-%d %H:%M') as detail
from pairs
join known_jobs as job on job.shop = pairs.shop and job.job_no = pairs.job_no
join known_jobs as prior_job on prior_job.shop = pairs.shop and prior_job.job_no = pairs.prior_job_no
join attempts as attempt
    on attempt.shop = pairs.shop and attempt.job_no = pairs.job_no and attempt.system = pairs.system
    and attempt.position is not distinct from pairs.position and attempt.attempt_no = pairs.attempt_no
where not coalesce(prior_job.vehicle = job.vehicle, false)       -- one vehicle may have two jobs open at once
