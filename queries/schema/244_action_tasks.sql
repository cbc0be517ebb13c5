-- Tasks that an action is judged by.
--
-- One row: one action and task.
-- Columns:
--   action    as in action_spans
--   is_after  after the action; else before it
--   is_own    of its subject; else of the others that it is held against
--   stratum   system, make and model, joined; null where one of them is missing
--   job_id    as in known_jobs
--   is_hit    not first pass
-- Source: definitions, Before and after an action. An action on people, stands, bays and boards is judged by the subject's
-- tasks and held against the shop's others; one that changes its subject (supplier, software, shop) by all of the shop's,
-- and held against the other shops'.
with
candidates as (
    select
        span.action, task.job_id, task.started_at >= span.after_from as is_after, not task.first_pass as is_hit,
        task.system || ' / ' || task.make || ' / ' || task.model_name as stratum,
        task.shop = span.shop as is_here,
        case span.subject_kind
            when 'technician' then task.technician when 'bay' then task.bay when 'equipment' then task.equipment
            when 'target' then task.target
        end as value,
        case span.subject_kind when 'target' then span.subject else span.shop || '/' || span.subject end as subject,
        span.subject_kind in ('supplier', 'software_version', 'shop') as changes_subject,
        span.subject_kind = 'supplier' as needs_glass, task.system = 'front_camera' and task.source is not null as has_glass
    from action_spans as span
    join described_tasks as task
        on task.started_at >= span.before_from and task.started_at < span.taken_at
        or task.started_at >= span.after_from and task.started_at <= span.after_to
        and (span.next_at is null or task.started_at < span.next_at)
),
judged as (
    select
        *,
        case
            when changes_subject and (has_glass or not needs_glass) then is_here
            when not changes_subject and is_here then value = subject
        end as is_own
    from candidates
)
select action, is_after, is_own, stratum, job_id, is_hit
from judged
where is_own is not null
