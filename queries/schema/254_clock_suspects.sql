-- Findings that may come from clocks that disagree, and not from the order of the work. They are raised all the same.
--
-- One row: one job and kind of finding.
-- Columns:
--   shop     the shop's identifier
--   job_no   its repair-order number
--   kind     stale_post_scan | missing_road_test
--   beside   post_scan | road_test
--   minutes  by which it came before the last attempt's end
select
    gap.shop, job_no, case beside when 'post_scan' then 'stale_post_scan' else 'missing_road_test' end as kind, beside,
    -minutes as minutes
from clock_gaps as gap
join clocks_apart using (shop, beside)
where minutes < 0 and minutes > -10
