-- Comebacks: return visits, each tied to the one earlier job that it most likely comes back from.
--
-- One row: one return visit.
-- Columns:
--   shop          the return visit
--   job_no        the return visit
--   prior_shop    the earlier job
--   prior_job_no  the earlier job
--   class         linked | probable | continuation | possible | uncalibrated
--   opened_at     of the return visit
--   closed_at     of the earlier job; null while it is open
--   days          from closing to return, days; null while the earlier job is open
--   finding       the finding's identifier
--   decision      confirmed | dismissed | null
--   is_counted    linked, probable or confirmed, and not dismissed: what rates count
--   job_id        of the return visit, as in known_jobs
--   prior_job_id  of the earlier job
-- Source: definitions, Comebacks.
with
strongest as (
    select candidate.*, prior.closed_at, prior.opened_at as prior_opened_at
    from comeback_candidates as candidate
    join known_jobs as prior on prior.job_id = candidate.prior_job_id
    qualify row_number() over (
        partition by candidate.job_id
        order by
            list_position(['linked', 'probable', 'continuation', 'possible', 'uncalibrated'], class),
            closed_at desc nulls last,       -- the visit just before is the likelier origin
            prior_opened_at desc,
            prior_shop desc, prior_job_no desc    -- only to be the same every time
    ) = 1
),
identified as (
    select
        strongest.shop, strongest.job_no, prior_shop, prior_job_no, class, back.opened_at, strongest.closed_at,
        strongest.job_id, prior_job_id,
        finding_id('comeback', null, strongest.shop, strongest.job_no, null, null, null, null,
                   prior_shop, prior_job_no, null, null, null) as finding
    from strongest
    join known_jobs as back on back.job_id = strongest.job_id
)
select
    shop, job_no, prior_shop, prior_job_no, class, opened_at, closed_at,
    epoch(opened_at - closed_at) / 86400 as days,
    finding, verdict as decision,
    coalesce(verdict, case when class in ('linked', 'probable') then 'confirmed' end, 'dismissed') = 'confirmed'
        as is_counted,
    job_id, prior_job_id
from identified
left join standing_decisions using (finding)
