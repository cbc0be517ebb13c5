-- Hours between the steps of a calibrated job that a requirement policy can limit.
--
-- One row: one job and limit, where both moments are on record.
-- Columns:
--   shop     the shop's identifier
--   job_no   its repair-order number
--   subject  pre_scan: from the pre scan to the first attempt | post_scan: from the last completed attempt to the post
--            scan | documents: from closing to the last document
--   hours    h; negative where the order is the other way round
--   job_id   as in known_jobs
-- Source: experience, The audit bundle. Moments are those of the record; a date alone counts as its day's first moment.
with
last_work as (
    select job_id, max(coalesce(ended_at, started_at)) as done_at
    from attempts
    where outcome = 'completed'
    group by job_id
),
last_documents as (
    select job_id, max(added_at) as added_at
    from known_documents
    where added_at is not null
    group by job_id
)
select
    shop, job_no, 'pre_scan' as subject, epoch(first_started_at - before_scanned_at) / 3600 as hours, job_id
from visits
where first_started_at is not null and before_scan_no is not null
union all
select shop, job_no, 'post_scan', epoch(after_scanned_at - done_at) / 3600, job_id
from visits
join last_work using (job_id)
where after_scan_no is not null
union all
select shop, job_no, 'documents', epoch(added_at - closed_at) / 3600, job_id
from visits
join last_documents using (job_id)
where is_calibrated and closed_at is not null
