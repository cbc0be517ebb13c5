-- Note the records on file that rows of a file have met as they are.
insert into met_records select '{{.Table}}', old_row from fates where fate = 'unchanged' and old_row is not null
