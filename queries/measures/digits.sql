-- Last digits of measured values as they were written, by technician and quantity.
--
-- One row: one technician, quantity and unit.
-- Columns:
--   technician  as shop/technician
--   quantity    quantity_word
--   unit        as written
--   places      decimals that nine in ten of a system's values keep within, shorter ones being filled up with 0; the most
--               of all systems, for reports of one system may give fewer than those of another
--   n           values counted
--   left_out    values with more decimals, or not written as a plain number
--   steps       from the tenth to the ninetieth in a hundred of the deviations, in units of the last place
--   counts      how many values end in 0, 1, … 9
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only values taken at or after this moment; null for all
--   $to    only values taken at or before this moment; null for all
-- Source: none. A deviation is from the middle of the tolerance where both bounds are known, else from 0.
with
taken as (
    select attempt.shop || '/' || attempt.technician as technician, attempt.started_at as taken_at, reading.*
    from measurements as reading
    join attempts as attempt
        on attempt.shop = reading.shop and attempt.job_no = reading.job_no and attempt.system = reading.system
        and attempt.position is not distinct from reading.position and attempt.attempt_no = reading.attempt_no
    union all
    select job.shop || '/' || job.technician, job.opened_at, reading.*
    from measurements as reading
    join known_jobs as job on job.shop = reading.shop and job.job_no = reading.job_no
    where reading.system is null
),
written as (
    select
        technician, quantity, system, unit_written as unit, value,
        value - coalesce((spec_low + spec_high) / 2, 0) as deviation,
        regexp_extract(
            value_written, '^[+-]?([0-9]+)(?:([.,])([0-9]+))?$', ['whole', 'mark', 'fraction']
        ) as parts
    from taken
    where technician is not null
        and ($shop is null or shop = $shop)
        and ($from is null or taken_at >= $from::timestamp)
        and ($to is null or taken_at <= $to::timestamp)
),
plain as (                        -- 1,500 may be one and a half, or fifteen hundred
    select *, parts.whole <> '' and not (parts.mark = ',' and length(parts.fraction) = 3) as is_plain
    from written
),
of_systems as (
    select
        technician, quantity, system, unit,
        quantile_disc(length(parts.fraction), 0.9) as places,
        -- how many written units make a stored one; values that are all 0 have no steps in any unit
        coalesce(quantile_disc(
            case when value <> 0 then abs((parts.whole || '.' || parts.fraction || '0')::double / value) end, 0.5
        ), 1) as written_units
    from plain
    where is_plain
    group by technician, quantity, system, unit
),
ended as (
    select
        plain.technician, plain.quantity, plain.unit, places,
        is_plain and length(parts.fraction) <= places as is_counted,
        deviation * written_units * pow(10, places) as step,
        case when is_plain and length(parts.fraction) <= places
            then right(parts.whole || rpad(parts.fraction, places::integer, '0'), 1)::integer end as digit
    from plain
    join of_systems
        on of_systems.technician = plain.technician and of_systems.quantity = plain.quantity
        and of_systems.unit = plain.unit and of_systems.system is not distinct from plain.system
)
select
    technician, quantity, unit, max(places)::bigint as places,
    count(digit) as n, count(*) filter (not is_counted) as left_out,
    quantile_disc(step, 0.9) filter (is_counted) - quantile_disc(step, 0.1) filter (is_counted) as steps,
    [
        count(*) filter (digit = 0), count(*) filter (digit = 1), count(*) filter (digit = 2),
        count(*) filter (digit = 3), count(*) filter (digit = 4), count(*) filter (digit = 5),
        count(*) filter (digit = 6), count(*) filter (digit = 7), count(*) filter (digit = 8),
        count(*) filter (digit = 9)
    ] as counts
from ended
group by technician, quantity, unit
having count(digit) > 0
order by technician, quantity, unit
