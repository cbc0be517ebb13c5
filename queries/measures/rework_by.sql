-- Work done again, by who or what did it, or by what it goes back to, and by cause.
--
-- One row: one group and cause.
-- Columns:
--   group_name   null for attempts that lack the value
--   cause        repeat | comeback
--   attempts     how many
--   without_end  of these, how many have no end and so no hours
--   hours        from start to end
-- Parameters:
--   $by    of the work done again: technician | equipment | system | shop; of the work that it goes back to:
--          failure_code | stand | source
--   $shop  only this shop; null for all
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, Cost of rework. Who or what does more work again may only be the one that puts right.
select
    case $by
        when 'technician' then technician when 'equipment' then equipment
        when 'system' then system::varchar when 'shop' then shop
        when 'failure_code' then failure_code when 'stand' then stand when 'source' then source
    end as group_name,
    cause, count(*) as attempts, count(*) filter (seconds is null) as without_end,
    coalesce(sum(seconds), 0)::bigint / 3600 as hours
from rework_origins
where ($shop is null or shop = $shop)
    and ($from is null or started_at >= $from::timestamp)
    and ($to is null or started_at <= $to::timestamp)
group by group_name, cause
order by sum(coalesce(sum(seconds), 0)) over (partition by group_name) desc, group_name, cause desc
