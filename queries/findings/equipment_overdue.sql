-- Attempts made with a stand or target that was not verified at the time.
--
-- One row: one attempt and stand or target.
-- Columns:
--   class       failed (its latest check failed) | overdue (that check had run out) | unchecked (first checked later)
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word
--   attempt_no  as recorded
--   subject     the stand or target
--   at          start of the attempt
--   technician  of the attempt, else of the job
--   detail      the check that it rests on
-- Source: definitions, Evidence.
with
known_checks as (
    select shop, equipment, checked_at, outcome, due_at
    from equipment_checks
    cross join asked
    where checked_at <= as_of
),
tools as (
    select distinct shop, equipment from known_checks
),
first_checks as (                 -- before that the shop kept no checks at all, or none that reached us
    select shop, min(checked_at) as first_at from known_checks group by shop
),
used as (                         -- a stand and a target of one name are one tool
    select *, equipment as subject from attempts where equipment is not null
    union all
    select *, target as subject from attempts where target is not null and target is distinct from equipment
),
judged as (
    select
        case
            when latest.outcome = 'failed' then 'failed'
            when latest.due_at < used.started_at then 'overdue'
            when latest.checked_at is null and first_checks.first_at <= used.started_at then 'unchecked'
        end as class,
        used.shop, used.job_no, used.system, used.position, used.attempt_no, used.subject, used.started_at as at,
        used.technician, latest.checked_at, latest.due_at
    from used
    semi join tools on tools.shop = used.shop and tools.equipment = used.subject
    join first_checks on first_checks.shop = used.shop
    asof left join known_checks as latest
        on latest.shop = used.shop and latest.equipment = used.subject and latest.checked_at <= used.started_at
)
select
    judged.class, judged.shop, judged.job_no, judged.system, judged.position, judged.attempt_no, judged.subject,
    judged.at, coalesce(judged.technician, job.technician) as technician,
    case judged.class
        when 'failed' then 'failed its check of ' || strftime(checked_at, '%Y-%m-%d')
        when 'overdue' then 'checked ' || strftime(checked_at, '%Y-%m-%d') || ', due again '
            || strftime(due_at, '%Y-%m-%d')
        else 'not checked before this use'
    end as detail
from judged
join known_jobs as job using (shop, job_no)
where judged.class is not null
