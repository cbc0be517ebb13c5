-- New records without a number that equal one on file in all but the moment: perhaps a time was corrected.
--
-- One row.
-- Columns:
--   records  how many
--   line     of the first of them
--   earlier  the moment of the one on file
with
alike as (
    select read_rows.line, min({{knownAt "old"}}) as earlier
    from fates
    join checked on checked.row = fates.row
    join read_rows on read_rows.rowid = fates.row
    join {{.Table}} as old on {{same "old" "checked" .Among}} and {{alike "old" "checked" .Beside}}
    where fate = 'added' and checked.{{.Number}} is null
    group by read_rows.line, fates.row
)
select count(*)::bigint as records, coalesce(min(line), 0)::bigint as line, coalesce(arg_min(earlier, line), '') as earlier
from alike
