-- Findings on the bundle's jobs. What they rest on in a job that is not this insurer's is left out.
--
-- One row: one finding.
-- Columns:
--   shop              the shop's identifier
--   job_no            the job that it is about
--   kind              kind of finding
--   class             within the kind; empty with another_job
--   severity          high | medium | low; empty where the class decides it and is empty
--   system            driver-assistance system
--   position          which of several like sensors
--   attempt_no        the attempt
--   subject           fault, quantity, equipment, target or kind of document in question
--   at                its time
--   technician        whose work it concerns
--   prior_job         the other record that it rests on: another_job where that is not this insurer's
--   prior_shop        the other record
--   prior_job_no      the other record
--   prior_system      the other record
--   prior_position    the other record
--   prior_attempt_no  the other record
--   days              a comeback's days from closing to return, rounded to 1e-6
--   decision          a person's decision on it: confirmed | dismissed
--   finding           its identifier in the shop's history; empty with another_job, for it is made of that job's number
--   detail            in words
-- Source: experience, The audit bundle.
with
placed as (
    select
        finding.*,
        -- a link that meets no job may mean anyone's
        case
            when finding.kind = 'broken_link' and finding.class <> 'self' then named.job_no is null
            else finding.prior_job_no is not null and prior.job_no is null
        end as is_foreign
    from findings as finding
    join bundle_jobs as mine using (shop, job_no)
    join known_jobs as job using (shop, job_no)
    left join known_jobs as prior
        on prior.shop = finding.prior_shop and prior.job_no = finding.prior_job_no
        and lower(prior.insurer) = mine.insurer
    left join known_jobs as named
        on named.shop = job.shop and named.job_no = job.comeback_of and lower(named.insurer) = mine.insurer
),
worded as (
    select
        *,
        case
            when kind = 'comeback' and is_foreign then 'ties to a job that is not in this bundle'
            when kind = 'comeback' and class = 'linked' then 'the shop names the earlier job itself'
            when kind = 'comeback' and class = 'probable' then 'complaint about a system calibrated then'
            when kind = 'comeback' and class = 'continuation'
                then 'the earlier job was left unfinished, this one goes on with it'
            when kind = 'comeback' and class = 'possible' then 'same vehicle, connection not certain'
            when kind = 'comeback' then 'the front camera was not calibrated then, and is the complaint now'
            when kind = 'broken_link' and is_foreign then 'names another job'
            when kind = 'overlapping_work' and is_foreign then 'shares a moment with another job'
            when kind = 'overlapping_work' then 'same ' || class || ' at a moment of other work'
            when kind = 'repeated_readings' then 'ride heights of this vehicle are those written down for another one'
            else detail
        end as told
    from placed
)
select
    shop, job_no, kind,
    case when not is_foreign then class end as class,
    case when not (is_foreign and kind in ('comeback', 'broken_link')) then severity end as severity,
    system, position, attempt_no, subject, at, technician,
    case when is_foreign then 'another_job' end as prior_job,
    case when not is_foreign then prior_shop end as prior_shop,
    case when not is_foreign then prior_job_no end as prior_job_no,
    case when not is_foreign then prior_system end as prior_system,
    case when not is_foreign then prior_position end as prior_position,
    case when not is_foreign then prior_attempt_no end as prior_attempt_no,
    case when not is_foreign then round(days, 6) end as days,
    decision,
    case when not is_foreign then finding end as finding,
    told as detail
from worded
order by shop, job_no, at nulls first, kind, class nulls first, system nulls first, position nulls first,
    attempt_no nulls first, subject nulls first, prior_job nulls first, prior_shop nulls first,
    prior_job_no nulls first, prior_system nulls first, prior_position nulls first, prior_attempt_no nulls first,
    decision nulls first, finding
