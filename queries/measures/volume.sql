-- How much was done in a span of time.
--
-- One row.
-- Columns:
--   opened             jobs opened in it
--   closed             jobs closed in it
--   calibrated_closed  of the closed ones, with a calibration attempt
--   tasks              tasks whose first attempt started in it
--   attempts           attempts started in it
--   returns            counted comebacks that opened in it
-- Parameters:
--   $shop  only this shop; null for all
--   $from  from this moment; null for all
--   $to    up to and including this moment; null for all
-- Source: definitions, Calibrations and Comebacks.
with
happened as (
    select shop, 'opened' as what, opened_at as at from visits
    union all select shop, 'closed', closed_at from visits
    union all select shop, 'calibrated_closed', closed_at from visits where is_calibrated
    union all select shop, 'task', started_at from tasks
    union all select shop, 'attempt', started_at from attempts
    union all select shop, 'return', opened_at from comebacks where is_counted
)
select
    count(*) filter (what = 'opened') as opened,
    count(*) filter (what = 'closed') as closed,
    count(*) filter (what = 'calibrated_closed') as calibrated_closed,
    count(*) filter (what = 'task') as tasks,
    count(*) filter (what = 'attempt') as attempts,
    count(*) filter (what = 'return') as returns
from happened
where at is not null
    and ($shop is null or shop = $shop)
    and ($from is null or at >= $from::timestamp)
    and ($to is null or at <= $to::timestamp)
