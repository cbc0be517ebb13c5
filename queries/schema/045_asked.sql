-- What the reader asks of the history: how it stood at a moment, and how long a return visit counts. One row.
--
-- Columns:
--   as_of        nothing later is there; the latest event, noted at the end of each import
--   window_days  a return within so many days of the closing can be a comeback
-- plumbline puts a temporary table of the same name in its place for --as-of and --window, and so can any other
-- client: every view reads it.
-- Source: definitions, As-of and Comebacks.
create table asked (as_of timestamp, window_days integer not null);
insert into asked values (null, 90);
comment on table asked is 'as-of and window that the views go by; a temporary table of this name takes its place';
