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
spans as (
    select attempt.*, job.vehicle, coalesce(attempt.technician, job.technician) as led_by
    from attempts as attempt
    join known_jobs as job using (shop, job_no)
    where attempt.ended_at > attempt.started_at
),
claims as (
    select 'bay' as class, bay as resource, * from spans where bay is not null
    union all
    select 'technician', technician, * from spans where technician is not null
),
daily as (                        -- one row a day that the attempt touches: only attempts of one day need comparing
    select *, unnest(generate_series(started_at::date, ended_at::date, interval 1 day)) as day
    from claims
),
pairs as (
    select distinct
        later.class, later.resource, later.shop, later.job_no, later.system, later.position, later.attempt_no,
        later.started_at, later.ended_at, later.led_by,
        prior.shop as prior_shop, prior.job_no as prior_job_no, prior.system as prior_system,
        prior.position as prior_position, prior.attempt_no as prior_attempt_no,
        prior.started_at as prior_started_at, prior.ended_at as prior_ended_at
    from daily as later
    join daily as prior
        on prior.class = later.class and prior.shop = later.shop and prior.resource = later.resource
        and prior.day = later.day
        and prior.started_at < later.ended_at and later.started_at < prior.ended_at
    where prior.job_no <> later.job_no
        and (prior.started_at < later.started_at
            or (prior.started_at = later.started_at and prior.job_no < later.job_no))
        and not coalesce(prior.vehicle = later.vehicle, false)
)
select
    class, shop, job_no, system, position, attempt_no, started_at as at, led_by as technician,
    prior_shop, prior_job_no, prior_system, prior_position, prior_attempt_no,
    resource || ': ' || strftime(started_at, '%Y-%m-%d %H:%M') || ' to ' || strftime(ended_at, '%Y-%m-%d %H:%M')
        || ' and ' || strftime(prior_started_at, '%Y-%m-%d %H:%M') || ' to '
        || strftime(prior_ended_at, '%Y-%m-%d %H:%M') as detail
from pairs
