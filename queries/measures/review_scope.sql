-- As of when, over which records and up to which month a review reads.
--
-- One row.
-- Columns:
--   as_of         nothing later is there; null in an empty history
--   window_days   a return within so many days of the closing can be a comeback
--   last_month    last month that holds a unit of an outcome, as 2026-03; null where none does
--   first_opened  when the first job of the choice was opened
--   jobs          jobs on record
--   calibrated    of these, with a calibration attempt
--   shops         the shops of these jobs, in order, joined by a comma and a space
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only units at or after this moment; null for all
--   $to    only units at or before this moment; null for all
-- Source: definitions, As-of and Periods.
with
chosen_jobs as (
    select shop, opened_at, is_calibrated
    from visits
    where $shop is null or shop = $shop
),
chosen_units as (
    select max(at) as last_at
    from outcome_units
    where ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
)
select
    as_of, window_days, strftime(last_at, '%Y-%m') as last_month,
    (select min(opened_at) from chosen_jobs) as first_opened,
    (select count(*) from chosen_jobs) as jobs,
    (select count(*) from chosen_jobs where is_calibrated) as calibrated,
    (select coalesce(string_agg(distinct shop, ', ' order by shop), '') from chosen_jobs) as shops
from asked
cross join chosen_units
