-- Scans of the bundle's jobs.
--
-- One row: one scan.
-- Columns:
--   shop               the shop's identifier
--   job_no             its repair-order number
--   scan_no            as recorded
--   stage              pre | interim | post
--   scanned_at         when
--   modules_polled     modules asked
--   modules_responded  modules that answered
--   technician         who scanned
--   date_only          names of the timestamps that were given as a date alone
select
    shop, job_no, scan_no, stage, scanned_at, modules_polled, modules_responded, technician,
    case when scanned_on_date then 'scanned_at' end as date_only
from known_scans
join (select job_id from bundle_jobs) as mine using (job_id)
order by shop, job_no, scan_no
