-- What became of trouble codes between the scan before and the scan after, month by month.
--
-- One row: one month without gaps, by the scan after.
-- Columns:
--   month          as 2026-03
--   jobs           calibrated jobs with a scan after
--   compared       of these, with a scan before as well
--   faults_before  codes read before, in compared jobs
--   cleared        of these, not read after
--   still_stored   read after as stored only: shown and never flagged
--   remaining      open after, and read before
--   new            open after, and not read before
--   no_pre_scan    open after, with nothing to compare with
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only scans at or after this moment; null for all
--   $to    only scans at or before this moment; null for all
-- Source: definitions, Post-scan faults.
with
scanned_jobs as materialized (
    select job_id, before_scan_no, date_trunc('month', after_scanned_at) as starts
    from visits
    where is_calibrated and after_scan_no is not null
        and ($shop is null or shop = $shop)
        and ($from is null or after_scanned_at >= $from::timestamp)
        and ($to is null or after_scanned_at <= $to::timestamp)
),
jobs_by_month as (
    select starts, count(*) as jobs, count(before_scan_no) as compared
    from scanned_jobs
    group by starts
),
before_by_month as (
    select starts, count(*) as faults_before
    from scanned_jobs as job
    join known_faults as fault
        on fault.job_id = job.job_id and fault.scan_no = job.before_scan_no
    group by starts
),
compared_by_month as (
    select
        starts,
        count(*) filter (fault.stage = 'pre') as cleared,
        count(*) filter (fault.stage = 'post' and not fault.is_open) as still_stored,
        count(*) filter (fault.stage = 'post' and fault.is_open and fault.class = 'remaining') as remaining,
        count(*) filter (fault.stage = 'post' and fault.is_open and fault.class = 'new') as new,
        count(*) filter (fault.stage = 'post' and fault.is_open and fault.class = 'no_pre_scan') as no_pre_scan
    from scanned_jobs as job
    join post_scan_faults as fault using (job_id)
    group by starts
),
months as (
    select unnest(generate_series(
        (select min(starts) from scanned_jobs), (select max(starts) from scanned_jobs), interval 1 month
    )) as starts
)
select
    strftime(starts, '%Y-%m') as month,
    -- no row means that the month held none
    coalesce(jobs, 0) as jobs, coalesce(compared, 0) as compared, coalesce(faults_before, 0) as faults_before,
    -- a scan after without its scan before leaves nothing to clear
    coalesce(cleared, 0) as cleared, coalesce(still_stored, 0) as still_stored, coalesce(remaining, 0) as remaining,
    coalesce(new, 0) as new, coalesce(no_pre_scan, 0) as no_pre_scan
from months
left join jobs_by_month using (starts)
left join before_by_month using (starts)
left join compared_by_month using (starts)
order by starts
