-- Fix the moment and the window that every shape reads.
--
-- Parameters:
--   $as_of        the moment; null for the latest event
--   $window_days  days within which a return visit can be a comeback
create or replace temporary table asked as
select
    coalesce($as_of::timestamp, (select as_of from main.latest_event)) as as_of,
    $window_days::integer as window_days
