-- Scans in the jobs asked for.
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
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
)
select shop, job_no, scan_no, stage, scanned_at, scanned_on_date, modules_polled, modules_responded, technician
from known_scans
join named using (shop, job_no)
order by shop, job_no, scanned_at, scan_no
