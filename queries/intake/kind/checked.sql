-- The rows of a file with typed values.
--
-- One row of checked: one row of read_rows.
-- Columns:
--   row       its place there
--   readable  every value is there or may be missing
-- and the stored columns of the kind; with measurements and faults also
--   known_as   the name of the record that they came in one row with
--   of_record  by which they are told apart where they have no number
create or replace temporary table checked as
select
    row, misshapen is null and {{.Readable}} as readable, {{list "" .Stored}}
    {{- if .Owner}}, known_as, null::varchar as of_record{{end}}
from ({{.Typed}})
