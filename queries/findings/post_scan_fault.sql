-- Open trouble codes in the last post scan of a calibrated job.
--
-- One row: one fault.
-- Columns:
--   class       new | remaining | no_pre_scan
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      the system that the module serves; null for any other module
--   subject     module and code
--   at          when the post scan was made
--   technician  who led the job
--   detail      status and description
-- Source: definitions, Post-scan faults.
select
    fault.class, fault.shop, fault.job_no, fault.system, fault.module || ' ' || fault.code as subject,
    fault.scanned_at as at, job.technician,
    concat_ws(', ', fault.status::varchar, fault.description) as detail
from post_scan_faults as fault
join known_jobs as job using (job_id)
where fault.stage = 'post' and fault.is_open
