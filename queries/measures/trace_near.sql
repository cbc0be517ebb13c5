-- Vehicles and jobs whose names come closest to a key that names none.
--
-- One row: one vehicle or job; at most three, all equally near.
-- Columns:
--   name  the VIN, or SHOP/JOB
-- Parameters:
--   $key  as the user wrote it
--   $vin  the same in upper case without spaces and hyphens
-- Nearness is the number of letters to change, add, leave out or swap with a neighbour, case apart; a third of the key is
-- too far.
with
names as (
    select distinct vin as name, vin as whole, $vin as sought from known_jobs where vin is not null
    union all
    select distinct vin, right(vin, length($vin)), $vin from known_jobs where vin is not null and length($vin) >= 6
    union all
    select shop || '/' || job_no, lower(shop || '/' || job_no), lower($key) from known_jobs
    union all
    select shop || '/' || job_no, lower(job_no), lower($key) from known_jobs
),
near as (
    select name, min(damerau_levenshtein(whole, sought)) as steps
    from names
    where abs(length(whole) - length(sought)) <= 3
    group by name
)
select name
from near
where steps * 3 <= length($key)
qualify steps = min(steps) over ()
order by name
limit 3
