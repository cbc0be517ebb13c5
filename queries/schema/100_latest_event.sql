-- The latest moment that the history speaks of.
--
-- One row.
-- Columns:
--   as_of  latest of the events of jobs and their attempts, scans and road tests that is not later than its import
-- Source: definitions, As-of. An event in the future of its own import is a slip of the pen and would hold back nothing.
with
file_moments as (
    select from_file, at as imported_at
    from import_files
    join imports using (import)
),
events as (
    select opened_at as at, from_file from jobs
    union all select closed_at, from_file from jobs
    union all select started_at, from_file from calibrations semi join jobs using (shop, job_no)
    union all select ended_at, from_file from calibrations semi join jobs using (shop, job_no)
    union all select scanned_at, from_file from scans semi join jobs using (shop, job_no)
    union all select started_at, from_file from road_tests semi join jobs using (shop, job_no)
    union all select ended_at, from_file from road_tests semi join jobs using (shop, job_no)
)
select max(at) as as_of
from events
join file_moments using (from_file)
where at <= imported_at
