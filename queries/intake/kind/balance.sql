-- The balance of rows of a file.
--
-- One row.
-- Columns:
--   read       rows of the file; the next four add up to it
--   added      new records
--   updated    records that replace another
--   unchanged  records that are there already
--   rejected   rows to be set aside
with
counts as (
    select
        (select count(*) from checked) as rows,
        count(*) filter (fate = 'added') as added,
        count(*) filter (fate = 'updated') as updated,
        count(*) filter (fate = 'unchanged') as unchanged
    from fates
)
select
    rows::bigint as read, added::bigint as added, updated::bigint as updated, unchanged::bigint as unchanged,
    (rows - added - updated - unchanged)::bigint as rejected
from counts
