-- Records whose number was given and is now another's, for it was read: each gets the number after the highest ever.
--
-- One row of displaced: one record.
-- Columns:
--   old_row     its rowid
--   import      of the row that has the number
--   old_number  the number that it had
--   number      the one that it gets
--   known_as    its name
--   content     as in given_numbers
-- and the columns of its task.
-- Parameters:
--   $import  the import in hand, whose file is not in the journal yet
-- Source: record layout, Records that their source does not number.
create or replace temporary table displaced as
with
clashes as (
    select
        given.rowid as old_row, {{list "given" .Task}}, coalesce(import_files.import, $import) as import, given.{{.Number}} as old_number, given.known_as,
        {{digest "given"}} as content
    from (select rowid, * from {{.Table}} where number_given) as given
    join {{.Table}} as reader on {{same "reader" "given" .Task}} and reader.{{.Number}} = given.{{.Number}}
    left join import_files on import_files.from_file = reader.from_file
    where not coalesce(reader.number_given, false)
),
tasks as (
    select distinct {{list "" .Task}} from clashes
),
ever as (
    select {{list "tasks" .Task}}, old.{{.Number}} as number
    from tasks join {{.Table}} as old on {{same "old" "tasks" .Task}}
    union all
    select {{list "tasks" .Task}}, old.{{.Number}}
    from tasks join superseded.{{.Table}} as old on {{same "old" "tasks" .Task}}
    union all
    select {{list "tasks" .Task}}, given.number
    from tasks join given_numbers as given on given.kind = '{{.Table}}' and {{same "given" "tasks" .Task}}
),
highest as (
    select {{list "" .Task}}, max(number) as number from ever group by {{list "" .Task}}
)
select
    clashes.*,
    highest.number + row_number() over (partition by {{list "clashes" .Task}} order by old_number, old_row) as number
from clashes
join highest on {{same "highest" "clashes" .Task}}
