-- The name of the attempt or scan whose each row of the file is.
--
-- One row of named: one row of the file that is new or replaces a record.
-- Columns:
--   row       its place in read_rows
--   known_as  the name; null where the row goes by number or by moment alone
create or replace temporary table named as
select fates.row, coalesce(checked.known_as, old.known_as) as known_as
from fates
join checked on checked.row = fates.row
left join {{.Table}} as old on old.rowid = fates.old_row
where fate in ('added', 'updated')
