-- Visits of the vehicles that some jobs were done on.
--
-- One row: one visit.
-- Columns:
--   shop            the shop's identifier
--   job_no          its repair-order number
--   vin             as stored
--   vin_form        well_formed | malformed | missing
--   make            commonest spelling
--   model           commonest spelling
--   model_year      year
--   odometer_km     at arrival, km
--   opened_at       vehicle in
--   closed_at       vehicle out; null while open
--   opened_on_date  opened_at was a date alone
--   closed_on_date  closed_at was a date alone
--   reason          reason_word
--   complaint       the customer's words
--   insurer         commonest spelling
--   claim_no        the claim
--   comeback_of     the earlier job that the shop names
--   technician      who led the job
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
-- Source: definitions, Comebacks: only a well-formed VIN ties visits together.
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
),
named_jobs as materialized (
    select job_id, vehicle from known_jobs join named using (shop, job_no)
),
wanted as (
    select job_id from named_jobs
    union
    select job_id from known_jobs where vehicle in (select vehicle from named_jobs)
)
select
    job.shop, job.job_no, job.vin, job.vin_form, visit.make, visit.model, job.model_year, job.odometer_km,
    job.opened_at, job.closed_at, job.opened_on_date, job.closed_on_date, job.reason, job.complaint,
    visit.insurer, job.claim_no, job.comeback_of, job.technician
from known_jobs as job
join visits as visit using (job_id)
semi join wanted using (job_id)
order by job.opened_at, job.shop, job.job_no
