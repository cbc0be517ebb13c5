-- Trouble codes in the jobs asked for, with what became of those that the before and after scans read.
--
-- One row: one code of one module in one scan.
-- Columns:
--   shop         the shop's identifier
--   job_no       its repair-order number
--   scan_no      the scan
--   module       as the scan names it
--   code         trouble code
--   status       fault_status_word
--   is_open      active, pending or unknown
--   system       the driver-assistance system that the module serves; null for any other module
--   description  as the scan gives it
--   class        of the before scan: cleared; of the after scan: new | remaining | no_pre_scan; else null
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
-- Source: definitions, Post-scan faults.
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
)
select
    fault.shop, fault.job_no, fault.scan_no, fault.module, fault.code, fault.status, fault.is_open, fault.system,
    fault.description, compared.class
from (select known_faults.* from known_faults join named using (shop, job_no)) as fault
left join post_scan_faults as compared using (fault_id)
order by fault.shop, fault.job_no, fault.scan_no, fault.module, fault.code
