-- Calibrated jobs in whose post scan clearly fewer modules answered than in the pre scan.
--
-- One row: one job.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the post scan was made
--   technician  who led the job
--   detail      modules that answered, after and before
-- Finding:
--   name      Scan incomplete
--   means     Clearly fewer modules answered after than before: what was silent may hide a fault.
--   rule      A calibrated job in whose latest scan after fewer than 95 % as many modules responded as in its earliest
--             scan before; one a job.
--   page      evidence 80
--   severity  low
--   identity  keys
-- Source: definitions, Post-scan faults (below 95 %: what did not answer may hide a fault).
select
    visit.shop, visit.job_no, after.scanned_at as at, visit.technician,
    after.modules_responded || ' modules answered after, ' || before.modules_responded || ' before' as detail
from visits as visit
join known_scans as before
    on before.job_id = visit.job_id and before.scan_no = visit.before_scan_no
join known_scans as after
    on after.job_id = visit.job_id and after.scan_no = visit.after_scan_no
where visit.is_calibrated
    -- whole numbers, so that exactly 95 % is exactly that
    and after.modules_responded::bigint * 100 < before.modules_responded::bigint * 95
