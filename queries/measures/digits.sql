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
people as materialized (          -- as numbers, for measured values are many
    select row_number() over () as person, shop, technician
    from (select shop, technician from attempts union select shop, technician from known_jobs)
    where technician is not null and ($shop is null or shop = $shop)
),
taken as (
    select person, system, measured.*
    from measured
    join (
        select person, attempt_id, system
        from attempts
        join people using (shop, technician)
        where ($from is null or started_at >= $from::timestamp) and ($to is null or started_at <= $to::timestamp)
    ) using (attempt_id)
    union all
    select person, null, measured.*
    from measured
    join (
        select person, job_id
        from known_jobs
        join people using (shop, technician)
        where ($from is null or opened_at >= $from::timestamp) and ($to is null or opened_at <= $to::timestamp)
    ) using (job_id)
    where attempt_id is null
),
written as materialized (         -- 1,500 may be one and a half, or fifteen hundred
    select
        person, system, quantity, unit, decimals, deviation, is_plain,
        case when is_plain and value <> 0 then abs(replace(value_written, ',', '.')::double / value) end as written_units,
        case when is_plain then right(value_written, 1)::tinyint end as last_digit
    from (
        select
            person, system, quantity, unit_written as unit, value, value_written,
            value - coalesce((spec_low + spec_high) / 2, 0) as deviation,
            case when mark > 0 then length(value_written) - mark else 0 end as decimals,
            regexp_full_match(value_written, '[+-]?[0-9]+([.,][0-9]+)?')
                and not (value_written[mark] = ',' and length(value_written) - mark = 3) as is_plain
        from (select *, greatest(strpos(value_written, '.'), strpos(value_written, ',')) as mark from taken)
    )
),
of_systems as (
    select
        person, quantity, system, unit,
        quantile_disc(decimals, 0.9) as places,
        -- how many written units make a stored one; values that are all 0 have no steps in any unit
        coalesce(quantile_disc(written_units, 0.5), 1) as written_units
    from written
    where is_plain
    group by person, quantity, system, unit
),
ended as (
    select
        written.person, written.quantity, written.unit, places,
        is_plain and decimals <= places as is_counted,
        deviation * of_systems.written_units * pow(10, places) as step,
        -- what is shorter than the places is filled up with 0
        case when is_plain and decimals < places then 0 when decimals = places then last_digit end as digit
    from written
    join of_systems
        on of_systems.person = written.person and of_systems.quantity = written.quantity
        and of_systems.unit = written.unit and of_systems.system is not distinct from written.system
),
counted as (
    select
        person, quantity, unit, max(places)::bigint as places,
        count(digit) as n, count(*) filter (not is_counted) as left_out,
        quantile_disc(step, 0.9) filter (is_counted) - quantile_disc(step, 0.1) filter (is_counted) as steps,
        [
            count(*) filter (digit = 0), count(*) filter (digit = 1), count(*) filter (digit = 2),
            count(*) filter (digit = 3), count(*) filter (digit = 4), count(*) filter (digit = 5),
            count(*) filter (digit = 6), count(*) filter (digit = 7), count(*) filter (digit = 8),
            count(*) filter (digit = 9)
        ] as counts
    from ended
    group by person, quantity, unit
    having count(digit) > 0
)
select shop || '/' || technician as technician, quantity, unit, places, n, left_out, steps, counts
from counted
join people using (person)
order by shop || '/' || technician, quantity, unit
