-- Set rows aside that repeat the key of an earlier row of their file with other content.
--
-- Parameters:
--   $from_file  the file's number
--   $header     the source's columns, a JSON array
insert into rejects
with
header as (
    select from_json($header::json, '["VARCHAR"]') as names
)
select
    $from_file, read_rows.line, null, null,
    'has the same key as line ' || earlier.line || ' ({{list "" .Key}}) and other content',
    'keep the row that is right and take the other out', names, {{.Whole}}
from fates
join read_rows on read_rows.rowid = fates.row
join read_rows as earlier on earlier.rowid = fates.first_row
cross join header
where fate = 'second'
order by read_rows.line
