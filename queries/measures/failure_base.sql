-- How often jobs came back whose attempts all completed: what the comebacks after failures are to be compared with.
--
-- One row.
-- Columns:
--   matured    jobs without a failed or aborted attempt, closed and followed for the whole window
--   came_back  of these, with a counted comeback within it
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only jobs whose first attempt started at or after this moment; null for all
--   $to    only jobs whose first attempt started at or before this moment; null for all
-- Source: definitions, Comebacks (Follow-up).
select count(*) as matured, count(*) filter (follow_up.came_back) as came_back
from follow_ups as follow_up
join visits as visit using (job_id)
anti join (select job_id from attempts where outcome <> 'completed') as failed using (job_id)
where follow_up.matured
    and ($shop is null or follow_up.shop = $shop)
    and ($from is null or visit.first_started_at >= $from::timestamp)
    and ($to is null or visit.first_started_at <= $to::timestamp)
