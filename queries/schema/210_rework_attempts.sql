-- Attempts that are work done again.
--
-- One row: one attempt.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word; null for the system as a whole
--   attempt_no  as recorded
--   cause       repeat | comeback
--   started_at  start
--   seconds     from start to end; 0 where the end is before the start, null where it is missing
--   technician  who made it, as shop/technician
--   equipment   stand or frame, as shop/equipment
--   attempt_id  as in attempt_order
-- Source: definitions, Cost of rework. An attempt in a comeback's visit that also repeats an earlier one belongs to the
-- comeback: the whole visit would not have been.
with
return_visits as (
    select shop, job_no from comebacks where is_counted
)
select
    attempt.shop, attempt.job_no, attempt.system, attempt.position, attempt.attempt_no,
    case when return_visits.shop is not null then 'comeback' else 'repeat' end as cause,
    attempt.started_at,
    -- greatest() alone would make 0 of a missing end
    case
        when attempt.ended_at is not null
        then greatest(epoch_us(attempt.ended_at) - epoch_us(attempt.started_at), 0) // 1000000
    end as seconds,
    attempt.shop || '/' || attempt.technician as technician,
    attempt.shop || '/' || attempt.equipment as equipment, attempt.attempt_id
from attempts as attempt
left join return_visits on return_visits.shop = attempt.shop and return_visits.job_no = attempt.job_no
where attempt.repeats_method or return_visits.shop is not null
