-- Attempts made with a stand or target that was not verified at the time.
--
-- One row: one attempt and stand or target.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word
--   attempt_no  as recorded
--   subject     the stand or target
--   at          start of the attempt
--   technician  of the attempt, else of the job
--   detail      the check that it rests on
-- Finding:
--   name      Equipment check overdue
--   means     A stand or target was used with a check failed, overdue or never made.
--   rule      An attempt with a stand or target whose latest check by then had failed, or else was due again; or that
--             was checked later and not before, where the shop kept checks by then. What has no check at all is not
--             listed. One an attempt and stand or target.
--   page      evidence 160
--   severity  high where class is failed; low where class is unchecked; else medium
--   identity  keys and class
-- Classes:
--   failed     failed (its latest check failed)
--   overdue    overdue (that check had run out)
--   unchecked  unchecked (first checked later)
-- Decide:
--   80   where class is failed: Calibrated with equipment whose last check had failed. Every calibration made on it
--        since that check is in doubt.
-- Source: definitions, Evidence.
with
known_checks as (
    select shop, equipment, checked_at, outcome, due_at
    from equipment_checks
    cross join asked
    where checked_at <= as_of
),
shop_checks as (                  -- before that the shop kept no checks at all, or none that reached us
    select shop, min(checked_at) as first_at from known_checks group by shop
),
lapses as (                       -- spans of time in which a tool should not have been used
    select
        case when outcome = 'failed' then 'failed' else 'overdue' end as class,
        shop, equipment, checked_at, due_at, checked_at as begins,
        lead(checked_at) over (partition by shop, equipment order by checked_at) as ends
    from known_checks
    qualify outcome = 'failed' or due_at < coalesce(ends, 'infinity')
    union all
    select 'unchecked', shop, equipment, null, null, any_value(first_at), min(checked_at)
    from known_checks
    join shop_checks using (shop)
    group by shop, equipment
),
used as (                         -- a stand and a target of one name are one tool
    select attempt_id, shop, equipment as tool, started_at from attempts where equipment is not null
    union all
    select attempt_id, shop, target, started_at
    from attempts
    where target is not null and target is distinct from equipment
)
select
    lapse.class, attempt.shop, attempt.job_no, attempt.system, attempt.position, attempt.attempt_no,
    used.tool as subject, used.started_at as at, coalesce(attempt.technician, job.technician) as technician,
    case lapse.class
        when 'failed' then 'failed its check of ' || strftime(checked_at, '%Y-%m-%d')
        when 'overdue' then 'checked ' || strftime(checked_at, '%Y-%m-%d') || ', due again '
            || strftime(due_at, '%Y-%m-%d')
        else 'not checked before this use'
    end as detail
from used
join lapses as lapse
    on lapse.shop = used.shop and lapse.equipment = used.tool
    and used.started_at >= lapse.begins and used.started_at < coalesce(lapse.ends, 'infinity')
    and (lapse.class <> 'overdue' or lapse.due_at < used.started_at)
join attempts as attempt using (attempt_id)
join known_jobs as job using (job_id)
