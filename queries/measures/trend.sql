-- An outcome by period, without gaps from the first period that holds a unit to the last.
--
-- One row: one period.
-- Columns:
--   period  2026-03 | 2026-W11 | 2026-Q1
--   starts  first moment of the period
--   units   what fell in the period
--   n       of these, what takes part in the rate
--   count   occurrences among n
-- Parameters:
--   $outcome  not_first_pass | comeback | post_scan_fault | open_faults
--   $by       month | week (ISO 8601) | quarter
--   $shop     only this shop; null for all
--   $from     only units at or after this moment; null for all
--   $to       only units at or before this moment; null for all
-- Source: definitions, Periods.
with
units as materialized (
    select date_trunc($by, at)::timestamp as starts, is_rated, hits
    from outcome_units
    where outcome = $outcome
        and ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
),
periods as (
    select unnest(generate_series(
        (select min(starts) from units), (select max(starts) from units),
        case $by when 'week' then interval 7 day when 'quarter' then interval 3 month else interval 1 month end
    )) as starts
)
select
    case $by
        when 'week' then strftime(starts, '%G-W%V')
        when 'quarter' then strftime(starts, '%Y-Q') || quarter(starts)
        else strftime(starts, '%Y-%m')
    end as period,
    starts,
    count(is_rated) as units,
    count(*) filter (is_rated) as n,
    coalesce(sum(hits) filter (is_rated), 0)::bigint as count
from periods
left join units using (starts)
group by starts
order by starts
