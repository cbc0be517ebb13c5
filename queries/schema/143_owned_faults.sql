-- Trouble codes on record with the scan that read them, whenever that was.
--
-- One row: one code whose scan is on record.
-- Columns:
--   scan_id      the scan as a number
--   fault_id     the fault as a number
--   module       as the scan names it
--   code         trouble code
--   status       fault_status_word
--   system       the driver-assistance system that the module serves; null for any other module
--   description  as the scan gives it
--   from_file    line of import_files
-- A code names its scan by a number that was read, by the name of the scan that came in one row with it, or else by stage
-- and moment, where exactly one scan on record has them.
-- Source: record layout, Records that their source does not number.
with
without_number as (
    select *, rowid as fault_id from faults where scan_no is null
),
sole_moments as (
    select shop, job_no, stage, scanned_at, on_date(date_only, 'scanned_at') as on_date, min(scans.rowid) as scan_id
    from scans
    semi join (select shop, job_no from without_number where known_as is null) as wanted using (shop, job_no)
    group by shop, job_no, stage, scanned_at, on_date
    having count(*) = 1
)
select
    scan.rowid as scan_id, fault.rowid as fault_id, module, code, status, system, description, fault.from_file
from faults as fault
join scans as scan using (shop, job_no, scan_no)
where scan.number_given is null
union all
select scan.rowid, fault_id, module, code, status, system, description, fault.from_file
from without_number as fault
join scans as scan using (shop, job_no, known_as)
union all
select scan_id, fault_id, module, code, status, system, description, fault.from_file
from without_number as fault
join sole_moments as moment
    on moment.shop = fault.shop and moment.job_no = fault.job_no and moment.stage = fault.stage
    and moment.scanned_at = fault.scanned_at and moment.on_date = on_date(fault.date_only, 'scanned_at')
where fault.known_as is null
