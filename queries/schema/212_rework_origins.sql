-- Work done again, with the work that it goes back to.
--
-- One row: one attempt that is work done again.
-- Columns:
--   shop              the shop's identifier
--   job_no            its repair-order number
--   system            system_word
--   position          position_word; null for the system as a whole
--   attempt_no        as recorded
--   cause             repeat | comeback
--   started_at        start
--   seconds           as in rework_attempts
--   technician        who made it, as shop/technician
--   equipment         stand or frame of it, as shop/equipment
--   prior_shop        the work that it goes back to: of a repeat the attempt before it in its task; of a comeback the last
--                     attempt of that system and position in the earlier job; null where there is none
--   prior_job_no      the earlier work
--   prior_attempt_no  the earlier work
--   failure_code      of the earlier work, in capitals; null where it completed or has none
--   failure_text      of the earlier work
--   stand             of the earlier work, as shop/equipment
--   source            of the windshield in the earlier work's job, glass_source_word; null for any but the front camera
--   job_id            as in known_jobs
--   attempt_id        as in attempt_order
-- Source: definitions, Cost of rework. It goes together, and need not be the cause.
with
work as (
    select rework.*, attempt.job_id, attempt.task_id, attempt.nth
    from rework_attempts as rework
    join attempts as attempt using (attempt_id)
),
lasts as (
    select task_id, max(nth) as nth from attempts group by task_id
),
before as (                       -- of a repeat
    select work.attempt_id, earlier.attempt_id as prior_id
    from work
    join attempts as earlier on earlier.task_id = work.task_id and earlier.nth = work.nth - 1
    where work.cause = 'repeat'
),
came_from as (                    -- of a comeback; coalesced, for a missing position is the system as a whole
    select work.attempt_id, earlier.attempt_id as prior_id
    from work
    join comebacks as back on back.job_id = work.job_id and back.is_counted
    join attempts as earlier
        on earlier.job_id = back.prior_job_id and earlier.system = work.system
        and coalesce(earlier.position::varchar, '') = coalesce(work.position::varchar, '')
    join lasts on lasts.task_id = earlier.task_id and lasts.nth = earlier.nth
    where work.cause = 'comeback'
),
origins as (
    select attempt_id, prior_id from before
    union all
    select attempt_id, prior_id from came_from
)
select
    work.shop, work.job_no, work.system, work.position, work.attempt_no, cause, work.started_at, seconds,
    work.technician, work.equipment, earlier.shop as prior_shop, earlier.job_no as prior_job_no,
    earlier.attempt_no as prior_attempt_no, nullif(upper(trim(earlier.failure_code)), '') as failure_code, earlier.failure_text,
    earlier.shop || '/' || earlier.equipment as stand,
    case when work.system = 'front_camera' then visit.windshield_source::varchar end as source, work.job_id, work.attempt_id
from work
left join origins using (attempt_id)
left join attempts as earlier on earlier.attempt_id = origins.prior_id
left join visits as visit on visit.job_id = earlier.job_id
