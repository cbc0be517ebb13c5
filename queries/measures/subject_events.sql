-- What happened to a person, bay, stand or board, and what did not work there and then did.
--
-- One row: one event, in order of time.
-- Columns:
--   at            when
--   kind          check | action | software (first use of a version) | attempt (that did not complete)
--   shop          the shop's identifier
--   outcome       of the check or attempt; null for others
--   text          the check's note, what was done, the version, or the failure's code and text; null where none
--   by            who acted or attempted
--   due_at        of a check: when the next is due
--   job_no        of an attempt
--   system        of an attempt
--   position      of an attempt
--   attempt_no    of an attempt
--   vin           of an attempt's vehicle
--   next_at       start of the task's next attempt; null where there is none
--   next_outcome  of that
--   changed       what had changed by then, joined by commas
-- Parameters:
--   $kind  technician | bay | equipment | target
--   $name  as answers write it
--   $from  only events at or after this moment; null for all
--   $to    only events at or before this moment; null for all
-- Source: record layout; definitions, What changed.
with
own as (
    select attempt_id, shop, own_name from attempt_groups where grouping = $kind and group_name = $name
),
places as (                       -- the shops that know it, and how they call it
    select distinct shop, own_name from own
),
failed as (
    select attempt.*
    from attempts as attempt
    semi join own using (attempt_id)
    where outcome <> 'completed'
),
changed as (
    select pair as attempt_id, string_agg(what, ', ' order by what) as changed
    from compared_attempts
    where is_changed and outcome <> 'completed'
    group by pair
),
events as (
    select
        checked_at as at, 'check' as kind, shop, outcome::varchar as outcome, note as text, null::varchar as by, due_at,
        null::varchar as job_no, null::system_word as system, null::position_word as position, null::integer as attempt_no,
        null::varchar as vin, null::timestamp as next_at, null::varchar as next_outcome, null::varchar as changed
    from equipment_checks as checked
    cross join asked
    where checked_at <= as_of and $kind in ('equipment', 'target')
        and exists (select 1 from places where places.shop = checked.shop and own_name = equipment)
    union all
    select taken_at, 'action', shop, null, what, by, null, null, null, null, null, null, null, null, null
    from actions
    cross join asked
    where taken_at <= as_of
        and exists (
            select 1 from places
            where places.shop = actions.shop and ((subject_kind::varchar = $kind and subject = own_name) or subject_kind = 'shop')
        )
    union all
    select
        min(started_at), 'software', any_value(attempt.shop), null, software_version, null, null, null, null, null, null, null,
        null, null, null
    from attempts as attempt
    semi join own using (attempt_id)
    where software_version is not null
    group by software_version
    union all
    select
        failed.started_at, 'attempt', failed.shop, failed.outcome::varchar,
        nullif(concat_ws(' ', failed.failure_code, failed.failure_text), ''), failed.technician, null, failed.job_no,
        failed.system, failed.position, failed.attempt_no, job.vin, next.started_at, next.outcome::varchar, changed
    from failed
    join known_jobs as job using (job_id)
    left join attempts as next on next.task_id = failed.task_id and next.nth = failed.nth + 1
    left join changed on changed.attempt_id = failed.attempt_id
)
select *
from events
where ($from is null or at >= $from::timestamp) and ($to is null or at <= $to::timestamp)
order by at, kind, shop, text, job_no, system, position, attempt_no
