-- Decisions that stand: the latest on each finding, unless it was undone.
--
-- One row: one finding.
-- Columns:
--   finding     its identifier
--   verdict     confirmed | dismissed
--   decided_by  who
--   at          when
--   note        why
-- The latest is the one made last, not the one kept last: an import can bring in older ones.
select finding, verdict, decided_by, at, note
from decisions
qualify row_number() over (partition by finding order by at desc, decision desc) = 1 and verdict <> 'undone'
