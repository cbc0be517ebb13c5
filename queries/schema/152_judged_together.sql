-- Which visits a missing calibration is judged by together.
--
-- One row: one visit that takes part.
-- Columns:
--   job_id  as in visits
--   bench   visits of one bench are judged together: one for all, but of each insurer its own in a session that judges
--           insurers apart
-- An audit bundle may not tell of calibrations on other orders, not even by a finding that is missing. The session's
-- variable judged_apart (measures/audit_apart) is true where a bundle's findings are asked for.
-- Source: definitions, In an audit bundle.
select job_id, case when apart then lower(insurer) else '' end as bench
from visits
cross join (select coalesce(getvariable('judged_apart')::boolean, false) as apart)
where not apart or insurer is not null
