-- What is looked for in the texts of a masked bundle: the values to mask, and the job numbers that stay.
--
-- One row: one value; a technician's code once for each shop that has it.
-- Columns:
--   field  vin | claim | technician | job
--   shop   the shop whose technician it is; null for the others
--   value  as stored
-- Parameters:
--   $fields  the fields wanted, joined by commas
-- Source: experience, The audit bundle. Values to mask are those of all jobs, the latest too: a text of one job may name
-- any of them. Job numbers are the bundle's own.
with
written as (
    select 'vin' as field, null as shop, vin as value from jobs
    union all select 'claim', null, claim_no from jobs
    union all select 'technician', shop, technician from jobs
    union all select 'technician', shop, technician from calibrations
    union all select 'technician', shop, technician from scans
    union all select 'technician', shop, technician from road_tests
    union all select 'technician', shop, installer from glass
    union all select 'job', null, job_no from bundle_jobs
)
select distinct field, shop, value
from written
where value is not null and list_contains(string_split($fields, ','), field)
order by field, shop nulls first, value
