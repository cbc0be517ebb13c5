-- How long it took from an attempt that did not complete to the next one, and whether that one completed.
--
-- One row: one span of waiting.
-- Columns:
--   wait         in words
--   n            pairs of attempts
--   completed    of these, with the next attempt completed
--   without_end  of n, with no end of the first on record; the wait is then counted from its start
--   median_min   middle wait, minutes; negative where the next started before the first had ended
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only pairs whose first attempt started at or after this moment; null for all
--   $to    only pairs whose first attempt started at or before this moment; null for all
-- Source: none; the spans are the project's own.
with
waited as (
    select
        epoch(next_started_at - coalesce(ended_at, started_at)) / 60 as minutes,
        next_outcome = 'completed' as is_completed, ended_at is null as without_end
    from attempt_pairs
    where outcome <> 'completed'
        and ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
),
sorted as (
    select
        *,
        case
            when minutes < 0 then 1 when minutes < 15 then 2 when minutes < 60 then 3
            when minutes < 240 then 4 when minutes < 1440 then 5 else 6
        end as place
    from waited
)
select
    ['before the end', 'under 15 min', '15 to 60 min', '1 to 4 h', '4 to 24 h', 'a day or more'][place] as wait,
    count(*) as n, count(*) filter (is_completed) as completed, count(*) filter (without_end) as without_end,
    round(median(minutes), 2) as median_min
from sorted
group by place
order by place
