-- Trouble codes of calibrated jobs, before beside after.
--
-- One row: one fault of the job's earliest pre scan or of its latest post scan.
-- Columns:
--   shop         the shop's identifier
--   job_no       its repair-order number
--   module       as the scan names it
--   code         trouble code
--   status       fault_status_word, in the scan named by stage
--   is_open      active, pending or unknown
--   system       the driver-assistance system that the module serves; null for any other module
--   description  as the scan gives it
--   stage        pre: read before and not after | post: read after
--   class        cleared (stage pre) | new | remaining | no_pre_scan
--   scan_no      the scan
--   scanned_at   its moment
--   technician   who scanned
--   job_id       as in known_jobs
--   fault_id     as in known_faults
-- Source: definitions, Post-scan faults.
with
compared as materialized (       -- where nothing was scanned after, nothing is known to be cleared
    select
        fault.*, visit.before_scan_no is not null as has_before,
        case when fault.scan_no = visit.after_scan_no then 'post' else 'pre' end as stage
    from known_faults as fault
    join visits as visit using (job_id)
    where visit.is_calibrated and visit.after_scan_no is not null
        and (fault.scan_no = visit.after_scan_no or fault.scan_no = visit.before_scan_no)
),
same as materialized (           -- both readings of one fault; where either has no system the module decides
    select earlier.fault_id as before_id, later.fault_id as after_id
    from compared as earlier
    join compared as later
        on later.job_id = earlier.job_id
        and coalesce(later.system = earlier.system, lower(later.module) = lower(earlier.module))
        and same_code(later.code, earlier.code)
    where earlier.stage = 'pre' and later.stage = 'post'
),
classed as (
    select
        later.*,
        case when not has_before then 'no_pre_scan' when remaining.after_id is not null then 'remaining' else 'new' end
            as class
    from compared as later
    left join (select distinct after_id from same) as remaining on remaining.after_id = later.fault_id
    where stage = 'post'
    union all
    select *, 'cleared'
    from compared
    anti join same on same.before_id = compared.fault_id
    where stage = 'pre'
)
select
    fault.shop, fault.job_no, module, code, status, is_open, system, description, fault.stage, class, scan_no,
    scan.scanned_at, scan.technician, job_id, fault_id
from classed as fault
join known_scans as scan using (job_id, scan_no)
