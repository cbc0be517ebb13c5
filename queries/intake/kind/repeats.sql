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
twice as (
    select {{list "" .FileKey}}, min(row) as row
    from checked
    where readable{{if and .Number (not .Owner)}} and {{.Number}} is not null{{end}}
    group by {{list "" .FileKey}}
    having count(*) > 1
)
select later.row, first.row as first_row, {{alike "later" "first" .Content}} as same
from twice
join checked as first on first.row = twice.row
join checked as later on {{same "later" "twice" .FileKey}}
where later.readable and later.row > first.row
