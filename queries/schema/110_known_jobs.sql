-- Jobs as they stood at the moment asked for.
--
-- One row: one job opened by then.
-- Columns:
--   shop            the shop's identifier
--   job_no          its repair-order number
--   vin             as stored
--   vin_form        well_formed | malformed | missing
--   vehicle         the VIN where it is well formed: what visits are tied by
--   model_year      year
--   make            as stored
--   model           as stored
--   odometer_km     at arrival, km
--   opened_at       vehicle in
--   closed_at       vehicle out; null while open
--   opened_on_date  opened_at was a date alone
--   closed_on_date  closed_at was a date alone
--   reason          reason_word
--   complaint       the customer's words
--   insurer         as stored
--   claim_no        the claim
--   comeback_of     the earlier job that the shop names
--   technician      who led the job
--   from_file       line of import_files
--   job_id          the job as a number: what shapes are joined by, quicker than shop and job_no
-- Source: definitions, As-of.
select
    shop, job_no, vin, vin_form(vin) as vin_form,
    case when vin_form(vin) = 'well_formed' then vin end as vehicle,
    model_year, make, model, odometer_km, opened_at,
    case when closed_at <= as_of then closed_at end as closed_at,
    on_date(date_only, 'opened_at') as opened_on_date,
    on_date(date_only, 'closed_at') as closed_on_date,
    reason, complaint, insurer, claim_no, comeback_of, technician, from_file,
    jobs.rowid as job_id
from jobs
cross join asked
where opened_at <= as_of
