-- Findings that nobody has confirmed or dismissed, by severity.
--
-- One row: one severity that holds any, the gravest first.
-- Columns:
--   severity  high | medium | low
--   findings  how many
--   oldest    the earliest of their times
-- Parameters:
--   $shop  only this shop; null for all
select severity, count(*) as findings, min(at) as oldest
from findings
where decision is null and ($shop is null or shop = $shop)
group by severity
order by list_position(['high', 'medium', 'low'], severity)
