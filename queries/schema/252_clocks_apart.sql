-- Shops of which two clocks seem to disagree: what must come after the last attempt often comes a few minutes before it.
--
-- One row: one shop and kind of moment.
-- Columns:
--   shop            the shop's identifier
--   beside          post_scan | road_test
--   n               jobs with both moments
--   early           of these, before the attempt's end by less than 10 minutes
--   median_minutes  of all gaps
-- The rule: at least 50 jobs, and more than 5 % of them early. That people do not scan before they are done is common
-- practice, no source.
select
    shop, beside, count(*) as n, count(*) filter (minutes < 0 and minutes > -10) as early,
    quantile_cont(minutes, 0.5) as median_minutes
from clock_gaps
group by shop, beside
having n >= 50 and early * 20 > n
