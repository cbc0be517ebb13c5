-- Shops whose clocks seem to disagree, and how many findings that touches.
--
-- One row: one shop and kind of moment.
-- Columns:
--   shop            the shop's identifier
--   beside          post_scan | road_test
--   n               jobs with both moments
--   early           of these, before the last attempt's end by less than 10 minutes
--   median_minutes  from the end to it, of all of them
--   findings        stale post-scans or missing road tests on the early ones
-- Parameters:
--   $shop  only this shop; null for all
with
touched as (
    select suspect.shop, suspect.beside, count(*) as findings
    from clock_suspects as suspect
    join findings using (shop, job_no, kind)
    group by suspect.shop, suspect.beside
)
select shop, beside, n, early, median_minutes, coalesce(findings, 0) as findings
from clocks_apart
left join touched using (shop, beside)
where $shop is null or shop = $shop
order by shop, beside
