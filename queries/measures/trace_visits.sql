-- Visits of one vehicle, or one job.
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
--   $vin     every visit with this VIN; null for the job alone
--   $shop    the job's shop; null for the vehicle alone
--   $job_no  the job's number; null for the vehicle alone
select
    job.shop, job.job_no, job.vin, job.vin_form, visit.make, visit.model, job.model_year, job.odometer_km,
    job.opened_at, job.closed_at, job.opened_on_date, job.closed_on_date, job.reason, job.complaint,
    visit.insurer, job.claim_no, job.comeback_of, job.technician
from known_jobs as job
join visits as visit on visit.shop = job.shop and visit.job_no = job.job_no
where job.vin = $vin or (job.shop = $shop and job.job_no = $job_no)
order by job.opened_at, job.shop, job.job_no
