-- The moment and the window that every shape reads.
--
-- One row.
-- Columns:
--   as_of        nothing later is there; null in a history without records
--   window_days  days within which a return visit can be a comeback
-- Parameters:
--   $as_of        the moment
--   $window_days  the window
select $as_of::timestamp as as_of, $window_days::integer as window_days
