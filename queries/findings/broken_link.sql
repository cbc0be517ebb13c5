-- Jobs that name an earlier job which cannot be the one they come back from.
--
-- One row: one return visit.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the vehicle returned
--   technician  who led the job
--   detail      the job that is named
-- Finding:
--   name      Link to an earlier job broken
--   means     The job names an earlier one that cannot be the one meant.
--   rule      A job whose comeback_of names no job of the shop, itself, a job opened later, or one without a
--             calibration; one a job.
--   page      evidence 170
--   severity  low
--   identity  keys
-- Classes:
--   unknown         unknown (no such job)
--   self            self
--   later           later (it opened later)
--   not_calibrated  names a job without calibration
-- Source: definitions, Comebacks.
with
named as (
    select
        back.shop, back.job_no, back.opened_at, back.technician, back.comeback_of,
        case
            when prior.job_no is null then 'unknown'
            when prior.job_no = back.job_no then 'self'
            when prior.opened_at > back.opened_at then 'later'
            when not prior.is_calibrated then 'not_calibrated'
        end as class
    from known_jobs as back
    left join visits as prior on prior.shop = back.shop and prior.job_no = back.comeback_of
    where back.comeback_of is not null
)
select class, shop, job_no, opened_at as at, technician, 'names job ' || comeback_of as detail
from named
where class is not null
