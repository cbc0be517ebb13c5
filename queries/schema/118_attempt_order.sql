-- Calibration attempts of known jobs as numbers, with their order within the task.
--
-- One row: one attempt started by the moment asked for.
-- Columns:
--   attempt_id         the attempt as a number: what its measurements are joined by
--   task_id            the task as a number: one job, system and position
--   job_id             as in known_jobs
--   nth                1, 2, 3 … by started_at, then attempt_no, within the task
--   repeats_method     an earlier attempt of the task has the same method
--   follows_completed  an earlier attempt of the task with the same method was completed
-- Source: definitions, Calibrations. Most tasks have one attempt, and only the others are sorted.
with
known as materialized (
    select
        attempt.rowid as attempt_id,
        -- there are fewer than 32 systems and fewer than 31 positions; a missing position is one of its own
        job_id * 1024 + enum_code(system)::bigint * 32 + coalesce(enum_code(position) + 1, 0) as task_id,
        job_id, attempt_no, method, started_at, outcome
    from calibrations as attempt
    join known_jobs using (shop, job_no)
    cross join asked
    where started_at <= as_of
),
several as (
    select task_id from known group by task_id having count(*) > 1
),
sorted as (
    select
        attempt_id,
        row_number() over task as nth,
        row_number() over same_method > 1 as repeats_method,      -- a missing method is a method of its own
        coalesce(bool_or(outcome = 'completed') over earlier_same_method, false) as follows_completed
    from (select * from known semi join several using (task_id))
    window
        task as (partition by task_id order by started_at, attempt_no),
        same_method as (partition by task_id, method order by started_at, attempt_no),
        earlier_same_method as (
            partition by task_id, method order by started_at, attempt_no
            rows between unbounded preceding and 1 preceding
        )
)
select
    attempt_id, task_id, job_id, coalesce(nth, 1) as nth,
    coalesce(repeats_method, false) as repeats_method, coalesce(follows_completed, false) as follows_completed
from known
left join sorted using (attempt_id)
