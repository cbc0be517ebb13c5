-- How a name is shown that the records spell in several ways.
--
-- One row: one field and one spelling of a name.
-- Columns:
--   field  make | model | insurer | brand | supplier
--   name   as the records spell it
--   shown  the commonest spelling of the name without regard to case; of equally common ones the first in byte order
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
    select field, name, count(*) as times
    from written
    where name is not null
    group by field, name
)
select field, name, first_value(name) over (partition by field, lower(name) order by times desc, name) as shown
from counted
