-- Keys that more than one record has.
--
-- One row: one key.
-- Columns:
--   place  the records
--   said   what is wrong
with
twice as (                        -- by a number made from the key: few of the texts are ever needed
    select kind, key from every_record where not is_replaced group by kind, key having count(*) > 1
)
select kind || ' ' || name as place, count(*) || ' records have this key' as said
from every_record
semi join twice using (kind, key)
where not is_replaced
group by kind, name
having count(*) > 1
order by place
