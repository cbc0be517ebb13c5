-- Calibrated, closed jobs with what became of them.
--
-- One row: one job.
-- Columns:
--   shop         the shop's identifier
--   job_no       its repair-order number
--   closed_at    vehicle out
--   matured      followed for the whole window
--   came_back    a counted comeback opened within the window
--   return_days  from closing to the earliest counted comeback, days, 0 where negative; null where none
--   seen_days    how long the job has been watched, days, at most the window
--   job_id       as in known_jobs
-- Source: definitions, Comebacks (Follow-up, comeback curve).
with
returns as (
    select prior_job_id as job_id, min(opened_at) as returned_at
    from comebacks
    where is_counted
    group by prior_job_id
)
select
    visits.shop, visits.job_no, visits.closed_at, visits.matured,
    coalesce(returned_at <= visits.closed_at + to_days(window_days), false) as came_back,
    -- greatest() alone would pass over a null and make every job return at once
    case when returned_at is not null then greatest(epoch(returned_at - visits.closed_at) / 86400, 0) end as return_days,
    least(epoch(as_of - visits.closed_at) / 86400, window_days) as seen_days,
    visits.job_id
from visits
cross join asked
left join returns using (job_id)
where visits.is_calibrated and visits.closed_at is not null
