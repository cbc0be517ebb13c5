-- What the requirement policy asks for, rule by rule.
--
-- One row: one rule and one thing that it asks for. None without a policy.
-- Columns:
--   insurer  of the jobs that the rule is for; null for any
--   system   system_word; null for any
--   reason   reason_word; null for any
--   source   glass_source_word of the windshield; null for any
--   what     document | scan | road_test | measurement | equipment_verified | procedure_named | sequence | time_limit
--   subject  which document, scan, quantity, order or limit; null where what says it all
--   amount   how many documents, or the limit in hours
-- The policy is a JSON array in the session's variable policy_rules (measures/audit_require). It belongs to the reader
-- and not to the history, so that nothing is asked for in a session that set none.
-- Source: definitions, Evidence (missing_document).
with
rules as (
    select unnest(from_json(
        coalesce(getvariable('policy_rules')::varchar, '[]'),
        '[{"insurer": "VARCHAR", "system": "VARCHAR", "reason": "VARCHAR", "source": "VARCHAR", "what": "VARCHAR",
           "subject": "VARCHAR", "amount": "DOUBLE"}]'
    )) as rule
)
select
    rule.insurer, rule.system::system_word as system, rule.reason::reason_word as reason,
    rule.source::glass_source_word as source, rule.what, rule.subject, rule.amount
from rules
