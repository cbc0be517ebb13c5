-- Decisions in the order in which they were made, undone ones too.
--
-- One row: one decision.
-- Columns:
--   decision    1, 2, 3 … in the order in which they were kept
--   finding     its identifier
--   verdict     confirmed | dismissed | undone
--   decided_by  who
--   at          when
--   note        why
-- Parameters:
--   $finding  only decisions on this finding; null for all
select decision, finding, verdict, decided_by, at, note
from decisions
where $finding is null or finding = $finding
order by at, decision
