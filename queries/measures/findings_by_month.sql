-- How many findings of each kind were raised, month by month.
--
-- One row: one kind, class and month that holds any.
-- Columns:
--   kind       the kind
--   class      within the kind; null where it has none
--   severity   high | medium | low
--   month      as 2026-03
--   findings   how many
--   jobs       jobs that they are about
--   confirmed  of the findings, confirmed by a person
--   dismissed  of the findings, dismissed by a person
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only findings at or after this moment; null for all
--   $to    only findings at or before this moment; null for all
-- Source: definitions, Evidence.
select
    kind, class, severity, strftime(at, '%Y-%m') as month, count(*) as findings,
    count(distinct shop || chr(31) || job_no) as jobs,
    count(*) filter (decision = 'confirmed') as confirmed,
    count(*) filter (decision = 'dismissed') as dismissed
from findings
where at is not null
    and ($shop is null or shop = $shop)
    and ($from is null or at >= $from::timestamp)
    and ($to is null or at <= $to::timestamp)
group by all
order by kind, class, severity, month
