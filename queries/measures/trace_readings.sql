-- Measured values in the jobs asked for.
--
-- One row: one measurement.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for a measurement of the whole job
--   position    position_word; null for the system as a whole
--   attempt_no  of the attempt; null for a measurement of the whole job
--   quantity    quantity_word
--   value       in unit
--   unit        the quantity's stored unit
--   spec_low    lower bound of the tolerance; null where there is none
--   spec_high   upper bound of the tolerance; null where there is none
--   outside     low | high | null where inside or no tolerance is known
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
),
wanted as materialized (
    select measured.*
    from measured
    join (select job_id from known_jobs join named using (shop, job_no)) using (job_id)
)
select
    shop, job_no, system, attempt.position, attempt_no, quantity, round(value, 6) as value, unit,
    round(spec_low, 6) as spec_low, round(spec_high, 6) as spec_high, outside
from wanted
join attempts as attempt using (attempt_id)
union all
select
    shop, job_no, null, position, null, quantity, round(value, 6), unit, round(spec_low, 6), round(spec_high, 6), outside
from wanted
join known_jobs using (job_id)
where attempt_id is null
order by shop, job_no, system nulls first, position nulls first, attempt_no, quantity
