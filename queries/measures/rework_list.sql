-- Work done again, attempt by attempt, the longest first.
--
-- One row: one attempt.
-- Columns:
--   shop              the shop's identifier
--   job_no            its repair-order number
--   vin               as stored
--   system            system_word
--   position          position_word; null for the system as a whole
--   attempt_no        as recorded
--   cause             repeat | comeback
--   started_at        start
--   hours             from start to end; null where it has no end
--   technician        who made it, as shop/technician
--   failure_code      of the work that it goes back to
--   failure_text      of that
--   stand             of that, as shop/equipment
--   source            of the windshield of that, for the front camera
--   prior_shop        that work
--   prior_job_no      that work
--   prior_attempt_no  that work
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, Cost of rework.
select
    work.shop, work.job_no, job.vin, system, position, attempt_no, cause, started_at, seconds / 3600 as hours,
    work.technician, failure_code, failure_text, stand, source, prior_shop, prior_job_no, prior_attempt_no
from rework_origins as work
join known_jobs as job using (job_id)
where ($shop is null or work.shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
order by seconds desc nulls last, started_at, work.shop, work.job_no, system, position, attempt_no
