-- Hours between the steps of a calibrated job that a requirement policy can limit.
--
-- One row: one job and limit, where both moments are on record.
-- Columns:
--   shop     the shop's identifier
--   job_no   its repair-order number
--   subject  pre_scan: from the pre scan to the first attempt | post_scan: from the last completed attempt to the post
--            scan | documents: from closing to the last document
--   hours    h; negative where the order is the other way round
-- Source: experience, The audit bundle. Moments are those of the record; a date alone counts as its day's first moment.
with
last_work as (
    select shop, job_no, max(coalesce(ended_at, started_at)) as done_at
    from attempts
    where outcome = 'completed'
    group by shop, job_no
),
last_documents as (
    select shop, job_no, max(added_at) as added_at
    from known_documents
    group by shop, job_no
)
select visit.shop, visit.job_no, 'pre_scan' as subject, epoch(visit.first_started_at - scan.scanned_at) / 3600 as hours
from visits as visit
join known_scans as scan
    on scan.shop = visit.shop and scan.job_no = visit.job_no and scan.scan_no = visit.before_scan_no
where visit.first_started_at is not null
union all
select visit.shop, visit.job_no, 'post_scan', epoch(scan.scanned_at - last_work.done_at) / 3600
from visits as visit
join last_work using (shop, job_no)
join known_scans as scan
    on scan.shop = visit.shop and scan.job_no = visit.job_no and scan.scan_no = visit.after_scan_no
union all
select visit.shop, visit.job_no, 'documents', epoch(last_documents.added_at - visit.closed_at) / 3600
from visits as visit
join last_documents using (shop, job_no)
where visit.is_calibrated and visit.closed_at is not null and last_documents.added_at is not null
