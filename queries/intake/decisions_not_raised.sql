-- Decisions on findings that the records do not raise.
--
-- One row.
-- Columns:
--   findings  how many findings were decided on that are not there
-- The records may have been mended since, or may still have to come.
select count(distinct finding) as findings
from decisions
where finding not in (select finding from findings)
