-- How a name is shown that the records spell in several ways.
--
-- One row: one field and one name without regard to case.
-- Columns:
--   field   make | model | insurer | brand | supplier
--   folded  the name in lower case
--   shown   its commonest spelling; of equally common ones the first in byte order
-- Source: definitions, Missing.
with
written as (
    select 'make' as field, make as name from known_jobs
    union all select 'model', model from known_jobs
    union all select 'insurer', insurer from known_jobs
    union all select 'brand', brand from known_glass
    union all select 'supplier', supplier from known_glass
),
counted as (
    select field, lower(name) as folded, name, count(*) as times
    from written
    where name is not null
    group by field, name
)
select field, folded, arg_min(name, (-times, name)) as shown
from counted
group by field, folded
