-- Closed calibrated jobs without a pre scan or without a post scan.
--
-- One row: one job and scan that it lacks.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the job was closed
--   technician  who led the job
--   detail      what is not on record
-- Finding:
--   name      Scan missing
--   means     A calibrated job was closed without its scan before or after.
--   rule      A closed calibrated job without a scan before, or without one after; one a job and scan.
--   page      evidence 20, told as a share of jobs
--   severity  medium
--   identity  keys and class
-- Classes:
--   pre   before
--   post  after
-- Source: definitions, Post-scan faults.
with
lacking as (
    select 'pre' as class, shop, job_no, closed_at, technician
    from visits
    where is_calibrated and closed_at is not null and before_scan_no is null
    union all
    select 'post', shop, job_no, closed_at, technician
    from visits
    where is_calibrated and closed_at is not null and after_scan_no is null
)
select class, shop, job_no, closed_at as at, technician, 'no ' || class || '-scan on record' as detail
from lacking
