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
-- Source: definitions, Post-scan faults.
with
faults_before as materialized (
    select fault.*
    from visits
    join known_faults as fault
        on fault.job_id = visits.job_id and fault.scan_no = visits.before_scan_no
    where visits.is_calibrated and visits.after_scan_no is not null      -- no scan after, nothing known to be cleared
),
faults_after as materialized (
    select visits.before_scan_no, fault.*
    from visits
    join known_faults as fault
        on fault.job_id = visits.job_id and fault.scan_no = visits.after_scan_no
    where visits.is_calibrated
),
same as materialized (                         -- both readings of one fault; where either has no system the module decides
    select
        earlier.job_id, earlier.module, earlier.code,
        later.module as later_module, later.code as later_code
    from faults_before as earlier
    join faults_after as later
        on later.job_id = earlier.job_id
        and coalesce(later.system = earlier.system, lower(later.module) = lower(earlier.module))
        and same_code(later.code, earlier.code)
),
compared as (
    select
        later.job_id, later.shop, later.job_no, later.module, later.code, status, is_open, system, description, 'post' as stage,
        case
            when before_scan_no is null then 'no_pre_scan'
            when remaining.job_id is not null then 'remaining'
            else 'new'
        end as class,
        scan_no
    from faults_after as later
    left join (select distinct job_id, later_module, later_code from same) as remaining
        on remaining.job_id = later.job_id and remaining.later_module = later.module and remaining.later_code = later.code
    union all
    select job_id, shop, job_no, module, code, status, is_open, system, description, 'pre', 'cleared', scan_no
    from faults_before
    anti join same using (job_id, module, code)
)
select
    compared.shop, compared.job_no, module, code, status, is_open, system, description, compared.stage, class, scan_no,
    scan.scanned_at, scan.technician, job_id
from compared
join known_scans as scan using (job_id, scan_no)
