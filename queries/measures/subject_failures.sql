-- Why attempts did not complete with a person, in a bay, on a stand or with a board, and what worked next.
--
-- One row: one failure code, the commonest first.
-- Columns:
--   code            as the report gives it, in capitals; null where none is recorded
--   text            the commonest text of it here
--   n               attempts here that did not complete for it
--   others          attempts anywhere else that did not complete for it
--   retried         attempts of n that another followed in the task
--   completed_next  of these, with that next attempt completed
--   changed         what had changed most often before those, at most three, with how often
-- Parameters:
--   $kind  technician | bay | equipment | target
--   $name  as answers write it
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, What changed. What went together, not what caused what.
with
own as (
    select attempt_id from attempt_groups where grouping = $kind and group_name = $name
),
failed as (
    select
        attempt.attempt_id, nullif(upper(trim(attempt.failure_code)), '') as code, attempt.failure_text as text, next.outcome as next_outcome,
        own.attempt_id is not null as is_own
    from attempts as attempt
    left join own using (attempt_id)
    left join attempts as next on next.task_id = attempt.task_id and next.nth = attempt.nth + 1
    where attempt.outcome <> 'completed'
        and ($from is null or attempt.started_at >= $from::timestamp)
        and ($to is null or attempt.started_at <= $to::timestamp)
),
codes as (
    select
        code, mode(text order by text) filter (is_own) as text, count(*) filter (is_own) as n,
        count(*) filter (not is_own) as others,
        count(*) filter (is_own and next_outcome is not null) as retried,
        count(*) filter (is_own and next_outcome = 'completed') as completed_next
    from failed
    group by code
),
helped as (
    select code, what, count(*) as times
    from failed
    join compared_attempts as compared on compared.pair = failed.attempt_id
    where is_own and failed.next_outcome = 'completed' and is_changed
    group by code, what
    qualify row_number() over (partition by code order by count(*) desc, what) <= 3
),
changes as (
    select code, string_agg(replace(what, '_', ' ') || ' ' || times, ', ' order by times desc, what) as changed
    from helped
    group by code
)
select codes.code, codes.text, n, others, retried, completed_next, changed
from codes
left join changes on changes.code is not distinct from codes.code
where n > 0
order by n desc, codes.code nulls last
