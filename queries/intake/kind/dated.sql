-- The rows of the file by the moment that they are known by, where some have no number or meet records that have none.
--
-- One row of dated: one row of the file that repeats no earlier key.
-- Columns:
--   row          its place in read_rows
--   number       as read; null where the source numbers nothing
--   at           the moment
--   on_date      it was given as a date alone, which is another moment than 00:00
--   repeats_row  the row of equal content that it repeats; null for most. A row with a number is the one that counts
--   in_file      how many rows the file holds of that moment, equal ones once
-- and the columns among which moments are compared.
-- Source: record layout, Records that their source does not number.
create or replace temporary table dated as
with
plain as (
    select
        row, {{.Number}} as number, {{list "" .Among}}, {{.At}} as at, on_date(date_only, '{{.At}}') as on_date,
        {{digest "checked"}} as digest
    from checked
    where readable and row not in (select row from repeats)
),
told as (
    select
        *, min(row) filter (number is not null) over alike as numbered_row, min(row) over alike as first_row
    from plain
    window alike as (partition by digest)
),
judged as (
    select
        *,
        case when number is null then nullif(coalesce(numbered_row, first_row), row) end as repeats_row
    from told
)
select
    row, number, {{list "" .Among}}, at, on_date, repeats_row,
    count(*) filter (repeats_row is null) over (partition by {{list "" .Among}}, at, on_date) as in_file
from judged
