-- Sequences of measured deviations, one a stand or board and quantity.
--
-- One row: one group and quantity.
-- Columns:
--   group_name  never null: readings that lack the value are in no group
--   quantity    as in drift_readings
--   unit        the quantity's stored unit
--   half_width  half of the tolerance's width, in unit; null where it is not the same for all readings
--   left_out    readings that a slip of the unit explains, which would hide everything else
--   deviations  in order of time, from the middle of the tolerance in half widths
--   days        of the same readings, days since 1970-01-01
-- Parameters:
--   $by    equipment | target
--   $shop  only this shop; null for all
--   $from  only readings of attempts started at or after this moment; null for all
--   $to    only readings of attempts started at or before this moment; null for all
-- Source: definitions, Evidence (unit_suspect).
with
chosen as (
    select
        *,
        case $by when 'equipment' then equipment when 'target' then target end as group_name
    from drift_readings
    where ($shop is null or shop = $shop)
        and ($from is null or taken_at >= $from::timestamp)
        and ($to is null or taken_at <= $to::timestamp)
),
series as (
    select
        group_name, quantity, any_value(unit) as unit,
        case when min(half_width) = max(half_width) then min(half_width) end as half_width,
        count(*) filter (is_slip) as left_out,
        -- readings of one moment in order of their value, only to be the same every time
        list_sort(list({'taken_at': taken_at, 'deviation': deviation}) filter (not is_slip)) as readings
    from chosen
    where group_name is not null
    group by group_name, quantity
)
select
    group_name, quantity, unit, half_width, left_out,
    list_transform(readings, reading -> reading.deviation) as deviations,
    list_transform(readings, reading -> epoch(reading.taken_at)::bigint // 86400) as days
from series
order by group_name, quantity
