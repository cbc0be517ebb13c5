-- Which visits a missing calibration is judged by together.
--
-- One row: one visit that takes part, once a bench.
-- Columns:
--   job_id  as in visits
--   bench   visits of one bench are judged together: an empty text for all of them, and an insurer in lower case for its own
-- An audit bundle may not tell of calibrations on other orders, not even by a finding that is missing. The session's
-- variable judged_by (measures/audit_judged_by) is insurer where a bundle's findings are asked for, both where either kind
-- may be decided on, and null for the history's own.
-- Source: definitions, In an audit bundle.
with
asked_by as (select coalesce(getvariable('judged_by')::varchar, 'history') as judged_by)
select job_id, '' as bench
from visits cross join asked_by
where judged_by <> 'insurer'
union all
select job_id, lower(insurer)
from visits cross join asked_by
where judged_by <> 'history' and insurer is not null
