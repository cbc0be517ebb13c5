-- The point of view that the history is read from.
--
-- One row.
-- Columns:
--   as_of        nothing later is there; null in a history without records
--   window_days  days within which a return visit can be a comeback
select as_of, window_days
from asked
