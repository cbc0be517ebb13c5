-- Trouble codes read by known scans.
--
-- One row: one code of one module in one scan.
-- Columns:
--   shop         the shop's identifier
--   job_no       its repair-order number
--   scan_no      the scan
--   module       as the scan names it
--   code         trouble code
--   status       fault_status_word
--   is_open      active, pending or unknown; a stored code is shown and never flagged
--   system       the driver-assistance system that the module serves; null for any other module
--   description  as the scan gives it
--   from_file    line of import_files
--   job_id       as in known_jobs
--   fault_id     the fault as a number
-- Source: definitions, Post-scan faults.
select
    shop, job_no, scan_no, module, code, status, status <> 'stored' as is_open, system, description,
    fault.from_file, job_id, fault_id
from owned_faults as fault
join known_scans using (scan_id)
