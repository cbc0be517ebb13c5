-- Set rows aside whose number another record has, while they are by their moment a record without a number of its own.
--
-- Parameters:
--   $from_file  the file's number
--   $header     the source's columns, a JSON array
--   $names      the columns as faults call them, a JSON array for each record that a profile makes of a row
-- Source: record layout, Records that their source does not number.
insert into rejects
with
header as (
    select from_json($header::json, '["VARCHAR"]') as header, from_json($names::json, '[["VARCHAR"]]') as names
)
select
    $from_file, read_rows.line, names[{{.Record}}][{{.NumberPlace}}], checked.{{.Number}}::varchar,
    'is the number of the record of ' || {{knownAt "holder"}} || coalesce(' in ' || holder_file.file, '')
        || ', and by its time this row is the record of ' || {{knownAt "met"}} || coalesce(' in ' || met_file.file, '')
        || ', which came without a number',
    'give this row the number that is its own, or mend its time', header, {{.Whole}}
from fates
join checked on checked.row = fates.row
join read_rows on read_rows.rowid = fates.row
join {{.Table}} as holder on holder.rowid = fates.held_row
join {{.Table}} as met on met.rowid = fates.old_row
left join import_files as holder_file on holder_file.from_file = holder.from_file
left join import_files as met_file on met_file.from_file = met.from_file
cross join header
where fate = 'held'
order by read_rows.line
