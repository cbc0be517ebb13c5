-- Comebacks, each with both of its visits, the latest first.
--
-- One row: one return visit.
-- Columns:
--   finding          its identifier
--   class            linked | probable | continuation | possible | uncalibrated
--   is_counted       takes part in rates
--   decision         confirmed | dismissed | null
--   shop             the return visit
--   job_no           the return visit
--   vin              as stored
--   make             commonest spelling
--   model            commonest spelling
--   opened_at        when the vehicle returned
--   reason           reason_word of the return visit
--   complaint        the customer's words
--   prior_shop       the earlier job
--   prior_job_no     the earlier job
--   prior_closed_at  when the earlier job was closed; null while it is open
--   prior_technician who led the earlier job
--   supplier         of the earlier job's windshield, commonest spelling
--   days             from closing to return, days
--   decided_by       who confirmed or dismissed it
--   decided_at       when
--   decision_note    why
-- Parameters:
--   $shop  only returns to this shop; null for all
--   $from  only returns at or after this moment; null for all
--   $to    only returns at or before this moment; null for all
-- Source: definitions, Comebacks.
select
    comeback.finding, comeback.class, comeback.is_counted, comeback.decision, comeback.shop, comeback.job_no,
    back.vin, visit.make, visit.model, comeback.opened_at, back.reason::varchar as reason, back.complaint,
    comeback.prior_shop, comeback.prior_job_no, comeback.closed_at as prior_closed_at,
    prior.technician as prior_technician, prior.supplier, comeback.days,
    standing.decided_by, standing.at as decided_at, standing.note as decision_note
from comebacks as comeback
join known_jobs as back on back.job_id = comeback.job_id
join visits as visit on visit.job_id = comeback.job_id
join visits as prior on prior.job_id = comeback.prior_job_id
left join standing_decisions as standing on standing.finding = comeback.finding
where ($shop is null or comeback.shop = $shop)
    and ($from is null or comeback.opened_at >= $from::timestamp)
    and ($to is null or comeback.opened_at <= $to::timestamp)
order by comeback.opened_at desc, comeback.shop, comeback.job_no
