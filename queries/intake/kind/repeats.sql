-- Which rows of the file say again what an earlier row of it has the key of.
--
-- One row of repeats: one row of the file.
-- Columns:
--   row        its place in read_rows
--   first_row  the row that came first
--   same       it is stored alike, so that nothing is lost with it
-- A row without a number has no key of this sort; dated sees to those.
create or replace temporary table repeats as
with
twice as materialized (           -- laid down: else the engine compares every row with every other
    select {{list "" .FileKey}}, min(row) as first_row
    from checked
    where readable{{if and .Number (not .Owner)}} and {{.Number}} is not null{{end}}
    group by {{list "" .FileKey}}
    having count(*) > 1
),
later as materialized (
    select checked.*, twice.first_row
    from checked
    join twice on {{same "checked" "twice" .FileKey}}
    where checked.readable and checked.row > twice.first_row
)
select later.row, later.first_row, {{alike "later" "first" .Content}} as same
from later
join checked as first on first.row = later.first_row
