-- Which record on file each row of the file meets: the one of its key.
--
-- One row of meets: one row of the file that meets a record.
-- Columns:
--   row       its place in read_rows
--   old_row   the record's rowid
--   held_row  null: no other record stands in the way
create or replace temporary table meets as
select checked.row, old.rowid as old_row, null::bigint as held_row
from checked
join {{.Table}} as old on {{onKey "checked" "old"}}
where checked.readable and checked.row not in (select row from repeats)
