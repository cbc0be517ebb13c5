-- Jobs that share the name of a make, model or insurer with one vehicle, or with one job: its names are shown as they are
-- most often spelled in the whole history.
--
-- One row: one job known by the moment asked for.
-- Columns:
--   make     as stored
--   model    as stored
--   insurer  as stored
-- Parameters:
--   $vin     the vehicle's; null for the job alone
--   $shop    the job's shop; null for the vehicle alone
--   $job_no  the job's number; null for the vehicle alone
-- Source: definitions, Missing.
with
mine as materialized (
    select * from jobs where vin = $vin or (shop = $shop and job_no = $job_no)
)
select make, model, insurer
from jobs
cross join asked
where opened_at <= as_of
    and (lower(make) in (select lower(make) from mine) or lower(model) in (select lower(model) from mine)
        or lower(insurer) in (select lower(insurer) from mine))
