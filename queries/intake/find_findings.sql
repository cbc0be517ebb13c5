-- Findings whose identifiers begin with the digits given, raised now or decided on earlier.
--
-- One row: one prefix and finding; at most six a prefix, for more would not help to choose.
-- Columns:
--   prefix   the first digits as given
--   finding  its identifier
-- Parameters:
--   $prefixes  the first digits of each, in lower case, joined by commas
-- A finding that an import has since settled can still have its decision undone.
with
sought as (
    select distinct unnest(string_split($prefixes, ',')) as prefix
),
known as (
    select finding from findings
    union
    select finding from decisions
)
select sought.prefix, known.finding
from known
join sought on starts_with(known.finding, sought.prefix) and sought.prefix <> ''
qualify row_number() over (partition by sought.prefix order by known.finding) <= 6
order by sought.prefix, known.finding
