-- Scans of known jobs made by the moment asked for.
--
-- One row: one scan.
-- Columns:
--   shop               the shop's identifier
--   job_no             its repair-order number
--   scan_no            as recorded
--   stage              stage_word
--   scanned_at         when
--   scanned_on_date    scanned_at was a date alone
--   modules_polled     modules asked
--   modules_responded  modules that answered
--   technician         who scanned
--   from_file          line of import_files
--   job_id             as in known_jobs
--   scan_id            the scan as a number
-- Source: definitions, As-of and Attached.
select
    shop, job_no, scan_no, stage, scanned_at, on_date(scan.date_only, 'scanned_at') as scanned_on_date,
    modules_polled, modules_responded, scan.technician, scan.from_file, job_id, scan.rowid as scan_id
from scans as scan
join known_jobs using (shop, job_no)
cross join asked
where scanned_at <= as_of
