-- Measured values taken by a person, in a bay, on a stand or with a board against their tolerance, month by month.
--
-- One row: one quantity and month; the quantity with most values outside first.
-- Columns:
--   quantity   quantity_word
--   month      2026-03, of the attempt's start
--   n          values with both bounds of their tolerance
--   outside    of these, outside
--   median     deviation from the middle of the tolerance, in half widths: -1 is the lower bound, 1 the upper
--   low        the least deviation
--   high       the greatest
-- Parameters:
--   $kind  technician | bay | equipment | target
--   $name  as answers write it
--   $from  only attempts started at or after this moment; null for all
--   $to    only attempts started at or before this moment; null for all
-- Source: definitions, Evidence (a set of readings); as in drift_readings, deviations put vehicles with different
-- tolerances on one scale. A median, for a slip of the unit would take a mean along.
with
deviations as (
    select
        quantity, strftime(started_at, '%Y-%m') as month, outside,
        round((2 * value - spec_high - spec_low) / (spec_high - spec_low), 6) as deviation
    from attempt_groups
    join measured using (attempt_id)
    where grouping = $kind and group_name = $name and spec_high > spec_low
        and ($from is null or started_at >= $from::timestamp)
        and ($to is null or started_at <= $to::timestamp)
)
select
    quantity, month, count(*) as n, count(*) filter (outside is not null) as outside,
    quantile_cont(deviation, 0.5) as median, min(deviation) as low, max(deviation) as high
from deviations
group by quantity, month
order by sum(count(*) filter (outside is not null)) over (partition by quantity) desc, quantity, month
