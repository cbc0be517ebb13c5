-- Findings whose identifier begins with the digits given, raised now or decided on earlier.
--
-- One row: one finding; at most six, for more would not help to choose.
-- Columns:
--   finding  its identifier
-- Parameters:
--   $prefix  the first digits, in lower case
-- A finding that an import has since settled can still have its decision undone.
select finding
from findings
where starts_with(finding, $prefix)
union
select finding
from decisions
where starts_with(finding, $prefix)
order by finding
limit 6
