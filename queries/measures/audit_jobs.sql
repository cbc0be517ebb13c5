-- Jobs of the bundle, with what became of them.
--
-- One row: one job.
-- Columns:
--   shop             the shop's identifier
--   job_no           its repair-order number
--   vin              vehicle identification number as stored
--   vin_form         well_formed | malformed | missing
--   model_year       year
--   make             as stored
--   model            as stored
--   odometer_km      at arrival, km
--   opened_at        vehicle in
--   closed_at        vehicle out; empty while open
--   reason           why the vehicle came
--   complaint        the customer's words
--   insurer          as stored
--   claim_no         the insurer's claim number
--   technician       who led the job
--   comeback_of      the earlier job that the shop names; 'another job' where that is not one of this insurer's
--   returned_at      the earliest comeback visit that is this insurer's or nobody's, not dismissed
--   return_class     class of that comeback
--   return_job_no    its job number where it is this insurer's; empty where it carries no insurer
--   return_visits    how many such visits
--   date_only        names of the timestamps that were given as a date alone
-- Source: experience, The audit bundle. Another insurer's return visit is not counted here, and neither is its absence.
with
returns as (                      -- one row a job that a visit came back from
    select
        comeback.prior_shop as shop, comeback.prior_job_no as job_no,
        count(*) as return_visits,
        min(comeback.opened_at) as returned_at,
        arg_min(comeback.class, (comeback.opened_at, comeback.shop, comeback.job_no)) as return_class,
        arg_min(case when back.insurer is not null then comeback.job_no else '' end,
                (comeback.opened_at, comeback.shop, comeback.job_no)) as return_job_no
    from comebacks as comeback
    join known_jobs as back using (shop, job_no)
    join bundle_jobs as mine on mine.shop = comeback.prior_shop and mine.job_no = comeback.prior_job_no
    where comeback.decision is distinct from 'dismissed'
        and (back.insurer is null or lower(back.insurer) = mine.insurer)
    group by comeback.prior_shop, comeback.prior_job_no
)
select
    job.shop, job.job_no, job.vin, job.vin_form, job.model_year, job.make, job.model, job.odometer_km,
    job.opened_at, job.closed_at, job.reason, job.complaint, job.insurer, job.claim_no, job.technician,
    case
        when lower(named.insurer) = mine.insurer then job.comeback_of
        when job.comeback_of is not null then 'another job'
    end as comeback_of,
    returns.returned_at, returns.return_class, nullif(returns.return_job_no, '') as return_job_no,
    coalesce(returns.return_visits, 0) as return_visits,      -- no row means that none came back
    nullif(concat_ws(' ', case when job.opened_on_date then 'opened_at' end,
                          case when job.closed_on_date then 'closed_at' end), '') as date_only
from bundle_jobs as mine
join known_jobs as job using (shop, job_no)
left join known_jobs as named on named.shop = job.shop and named.job_no = job.comeback_of
left join returns on returns.shop = job.shop and returns.job_no = job.job_no
order by job.shop, job.job_no
