-- Decisions that stand: the latest on each finding, unless it was undone.
--
-- One row: one finding.
-- Columns:
--   finding     its identifier
--   verdict     confirmed | dismissed
--   decided_by  who
--   at          when
--   note        why
select finding, verdict, decided_by, at, note
from decisions
qualify row_number() over (partition by finding order by decision desc) = 1 and verdict <> 'undone'
