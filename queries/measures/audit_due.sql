-- How many jobs an audit looks at.
--
-- One row.
-- Columns:
--   jobs        all jobs
--   calibrated  with an attempt
--   due         closed and calibrated: those that must be complete by now
--   first_at    the earliest opening
--   last_at     the latest opening
-- Source: definitions, Evidence (missing_document).
select
    count(*) as jobs,
    count(*) filter (visit.is_calibrated) as calibrated,
    count(*) filter (visit.is_calibrated and visit.closed_at is not null) as due,
    min(visit.opened_at) as first_at, max(visit.opened_at) as last_at
from visits as visit
semi join bundle_jobs using (job_id)
