-- Work done again, by month and cause.
--
-- One row: one month and cause.
-- Columns:
--   month        2026-03, of the attempt's start
--   cause        repeat (follows another of the same method in its task) | comeback (in a counted comeback's visit)
--   attempts     how many
--   without_end  of these, how many have no end and so no hours
--   hours        from start to end
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, Cost of rework.
select
    strftime(started_at, '%Y-%m') as month, cause,
    count(*) as attempts, count(*) filter (seconds is null) as without_end,
    coalesce(sum(seconds), 0)::bigint / 3600 as hours     -- no end at all is no hours, and told by without_end
from rework_attempts
where ($shop is null or shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
group by month, cause
order by month, cause desc
