-- How often each system was calibrated at the first pass, and what happened otherwise.
--
-- One row: one system.
-- Columns:
--   system          system_word
--   tasks           tasks
--   not_first_pass  of these, with a failed or aborted attempt or a method done twice
--   after_pass      of these, done again after a completed attempt of the same method
--   unresolved      of these, in a closed job and not completed at the last attempt
--   attempts        attempts of these tasks
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only tasks at or after this moment; null for all
--   $to    only tasks at or before this moment; null for all
-- Source: definitions, Calibrations.
select
    task.system::varchar as system, count(*) as tasks,
    count(*) filter (not first_pass) as not_first_pass,
    count(*) filter (is_repeat and after_pass) as after_pass,
    count(*) filter (last_outcome <> 'completed' and visit.closed_at is not null) as unresolved,
    sum(attempts)::bigint as attempts
from tasks as task
join visits as visit using (job_id)
where ($shop is null or task.shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
group by task.system
order by tasks desc, task.system
