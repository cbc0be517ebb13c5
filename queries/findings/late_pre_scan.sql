-- Calibrated jobs whose pre scan was made after the first attempt had begun.
--
-- One row: one job.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the pre scan was made
--   technician  who led the job
--   detail      by how much it was late
-- Finding:
--   name      Scan before came late
--   means     The scan before was made when calibration had begun.
--   rule      A calibrated job whose earliest scan before was made after the start of its first attempt; one a job.
--   page      evidence 60, told as a share of jobs
--   severity  medium
--   identity  keys
-- Source: definitions, Post-scan faults.
select
    visit.shop, visit.job_no, scan.scanned_at as at, visit.technician,
    'pre-scan ' || (epoch(scan.scanned_at - visit.first_started_at) / 60)::bigint || ' min after the first attempt began'
        as detail
from visits as visit
join known_scans as scan on scan.job_id = visit.job_id and scan.scan_no = visit.before_scan_no
where visit.is_calibrated and visit.before_scanned_at > visit.first_started_at
    and not unordered(scan.scanned_at, scan.scanned_on_date, visit.first_started_at, visit.first_on_date)
