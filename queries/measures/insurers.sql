-- Insurers that jobs carry, in their commonest spelling.
--
-- One row: one insurer.
-- Columns:
--   insurer  its commonest spelling; of equally common ones the first in byte order
-- Source: definitions, Missing.
select insurer
from (select insurer, count(*) as jobs from jobs where insurer is not null group by insurer)
qualify row_number() over (partition by lower(insurer) order by jobs desc, insurer) = 1
order by insurer
