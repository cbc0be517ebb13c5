-- Open trouble codes in the last post scan of a calibrated job.
--
-- One row: one fault.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      the system that the module serves; null for any other module
--   subject     module and code
--   at          when the post scan was made
--   technician  who led the job
--   detail      status and description
-- Finding:
--   name      Fault after calibration
--   means     The last scan still read an open trouble code.
--   rule      A trouble code that is active, pending or unknown in the latest scan after calibration: new (not in the
--             earliest scan before), remaining (in both) or without a scan before to compare with. Stored codes are
--             never flagged. A code of the scan before that is not in the scan after is cleared.
--   page      post-scan-faults 10
--   severity  high where system is present; else medium
--   identity  keys
-- Classes:
--   new          new
--   remaining    remaining
--   no_pre_scan  no scan before to compare with
-- Decide:
--   40   where system is present: Open fault in a driver-assistance system at the last scan. The system may be off, or
--        act on what it cannot see.
-- Source: definitions, Post-scan faults.
select
    fault.class, fault.shop, fault.job_no, fault.system, fault.module || ' ' || fault.code as subject,
    fault.scanned_at as at, job.technician,
    concat_ws(', ', fault.status::varchar, fault.description) as detail
from post_scan_faults as fault
join known_jobs as job using (job_id)
where fault.stage = 'post' and fault.is_open
