-- Return visits, each tied to one earlier job.
--
-- One row: one return visit.
-- Columns:
--   class         linked | probable | continuation | possible | uncalibrated
--   shop          the return visit
--   job_no        the return visit
--   at            when the vehicle returned
--   technician    who leads the return visit
--   prior_shop    the earlier job
--   prior_job_no  the earlier job
--   days          from closing to return, days
--   detail        why it is taken for a comeback
-- Source: definitions, Comebacks.
select
    comeback.class, comeback.shop, comeback.job_no, comeback.opened_at as at, back.technician,
    comeback.prior_shop, comeback.prior_job_no, comeback.days,
    case comeback.class
        when 'linked' then 'the shop names the earlier job itself'
        when 'probable' then 'complaint about a system calibrated then'
        when 'continuation' then 'the earlier job was left unfinished, this one goes on with it'
        when 'possible' then 'same vehicle, connection not certain'
        else 'the front camera was not calibrated then, and is the complaint now'
    end || coalesce(': ' || back.complaint, '') as detail
from comebacks as comeback
join known_jobs as back using (job_id)
