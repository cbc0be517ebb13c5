-- Which modules keep trouble codes after a calibration.
--
-- One row: one system and module, without regard to the case of the module's name.
-- Columns:
--   system       the driver-assistance system that the module serves; null for any other module
--   module       its commonest spelling
--   jobs         calibrated jobs with an open code of it in the scan after
--   new          open after, and not read before
--   remaining    open after, and read before
--   no_pre_scan  open after, with nothing to compare with
--   cleared      read before, and not after
--   codes        the codes left open, in order, joined by a comma and a space
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only scans at or after this moment; null for all
--   $to    only scans at or before this moment; null for all
-- Source: definitions, Post-scan faults.
with
chosen as (
    select *, stage = 'post' and is_open as is_left
    from post_scan_faults
    where ($shop is null or shop = $shop)
        and ($from is null or scanned_at >= $from::timestamp)
        and ($to is null or scanned_at <= $to::timestamp)
),
spelt as (
    select lower(module) as folded, module, count(*) as times
    from chosen
    group by folded, module
),
names as (                        -- ties: the first in byte order
    select folded, arg_min(module, (-times, module)) as module
    from spelt
    group by folded
)
select
    chosen.system::varchar as system, names.module,
    count(distinct chosen.job_id) filter (is_left) as jobs,
    count(*) filter (is_left and class = 'new') as new,
    count(*) filter (is_left and class = 'remaining') as remaining,
    count(*) filter (is_left and class = 'no_pre_scan') as no_pre_scan,
    count(*) filter (class = 'cleared') as cleared,
    string_agg(distinct code, ', ' order by code) filter (is_left) as codes
from chosen
join names on names.folded = lower(chosen.module)
where is_left or class = 'cleared'
group by chosen.system, names.module
order by new + remaining + no_pre_scan desc, cleared desc, names.module, chosen.system
