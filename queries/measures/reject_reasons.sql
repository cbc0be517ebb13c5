-- Why rows were set aside.
--
-- One row: one kind of record, column and reason, of imports that stand.
-- Columns:
--   kind         jobs, glass, …
--   column_name  as the source writes it; null where the whole row is at fault
--   reason       why
--   count        faults
--   rows         rows
--   example      the first value at fault
--   file         of the example
--   line         of the example
-- Source: record layout, What an import must do.
select
    kind, column_name, reason, count(*) as count, count(distinct (reject.from_file, line)) as rows,
    arg_min(value, (reject.from_file, line)) as example,
    arg_min(file, (reject.from_file, line)) as file, arg_min(line, (reject.from_file, line)) as line
from rejects as reject
join import_files using (from_file)
join imports using (import)
where undone_at is null
group by kind, column_name, reason
order by count desc, kind, column_name, reason
