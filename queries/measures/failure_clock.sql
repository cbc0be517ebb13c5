-- At which hour of the day and on which weekday attempts do not complete.
--
-- One row: one hour or weekday.
-- Columns:
--   clock  hour | weekday
--   name   00 to 23, or Mon to Sun
--   n      attempts started then
--   count  of these, failed or aborted
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: none; the shop's wall clock. An attempt that was given a date alone has no hour.
with
started as (
    select started_at, started_on_date, outcome <> 'completed' as is_failed
    from attempts
    where ($shop is null or shop = $shop)
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
),
slots as (
    select 'hour' as clock, strftime(started_at, '%H') as name, is_failed
    from started
    where not started_on_date
    union all
    select 'weekday', strftime(started_at, '%a'), is_failed
    from started
)
select clock, name, count(*) as n, count(*) filter (is_failed) as count
from slots
group by clock, name
order by clock, list_position(['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'], name), name
