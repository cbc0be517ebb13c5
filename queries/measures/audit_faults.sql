-- Trouble codes read by the scans of the bundle's jobs.
--
-- One row: one code of one module in one scan.
-- Columns:
--   shop         the shop's identifier
--   job_no       its repair-order number
--   scan_no      the scan
--   module       as the scan names it
--   code         trouble code
--   status       active | pending | stored | unknown
--   system       the driver-assistance system that the module serves; empty for any other module
--   description  as the scan gives it
select shop, job_no, scan_no, module, code, status, system, description
from known_faults
join (select job_id from bundle_jobs) as mine using (job_id)
order by shop, job_no, scan_no, module, code
