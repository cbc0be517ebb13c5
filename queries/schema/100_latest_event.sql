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
of_jobs as (
    select max(at) as at
    from (select opened_at as at, from_file from jobs union all select closed_at, from_file from jobs)
    join file_moments using (from_file)
    where at <= imported_at
),
later as (                        -- few are later than all jobs, and only these need be attached to one
    select shop, job_no, work.at, from_file
    from (
        select shop, job_no, started_at as at, from_file from calibrations
        union all select shop, job_no, ended_at, from_file from calibrations
        union all select shop, job_no, scanned_at, from_file from scans
        union all select shop, job_no, started_at, from_file from road_tests
        union all select shop, job_no, ended_at, from_file from road_tests
    ) as work
    cross join of_jobs
    where work.at > coalesce(of_jobs.at, '-infinity')
),
attached as (
    select at, from_file from later semi join jobs using (shop, job_no)
),
all_moments as (
    select at from of_jobs
    union all
    select at from attached join file_moments using (from_file) where at <= imported_at
)
select max(at) as as_of
from all_moments
