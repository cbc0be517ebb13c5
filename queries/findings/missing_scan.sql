-- Closed calibrated jobs without a pre scan or without a post scan.
--
-- One row: one job and scan that it lacks.
-- Columns:
--   class       pre | post
--   shop        the shop's identifier
--   job_no      its repair-order number
--   at          when the job was closed
--   technician  who led the job
--   detail      what is not on record
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
