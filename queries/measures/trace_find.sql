-- Vehicles and jobs that a key names: the whole VIN, SHOP/JOB, the end of a VIN, or a job number, the first that fits.
--
-- One row: one vehicle or job; at most six, for more would not help to choose.
-- Columns:
--   name    the VIN, or SHOP/JOB
--   vin     of a vehicle; of a job only where it is well formed
--   shop    of a job; null for a vehicle
--   job_no  of a job; null for a vehicle
-- Parameters:
--   $key  as the user wrote it
--   $vin  the same in upper case without spaces and hyphens
-- It reads the records themselves: for the shapes the whole history would have to be worked out.
with
known as (
    select shop, job_no, vin, case when vin_form(vin) = 'well_formed' then vin end as vehicle
    from jobs
    cross join asked
    where opened_at <= as_of and (vin = $vin or ends_with(vin, $vin) or job_no = $key or ends_with($key, '/' || job_no))
),
named as (
    select distinct 1 as place, vin as name, vin, null::varchar as shop, null::varchar as job_no
    from known
    where vin = $vin
    union all
    select 2, shop || '/' || job_no, vehicle, shop, job_no
    from known
    where shop || '/' || job_no = $key
    union all
    select distinct 3, vin, vin, null, null
    from known
    where ends_with(vin, $vin) and length($vin) >= 6       -- fewer characters end too many
    union all
    select 4, shop || '/' || job_no, vehicle, shop, job_no
    from known
    where job_no = $key
)
select name, vin, shop, job_no
from named
qualify place = min(place) over ()
order by name
limit 6
