-- Attempts by the person, bay, stand and board of each.
--
-- One row: one attempt and grouping that it has a value for.
-- Columns:
--   grouping    technician | bay | equipment | target
--   group_name  as answers write it: shop/technician, shop/bay, shop/equipment; the board alone
--   own_name    as the record has it
--   attempt_id  as in attempt_order
--   task_id     as in attempt_order
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word; null for the system as a whole
--   attempt_no  as recorded
--   nth         1, 2, 3 … within the task
--   started_at  start
--   outcome     attempt_outcome_word
-- Source: definitions, Compare. People, bays and stands are one shop's own and are written with it.
select
    grouping, case grouping when 'target' then own_name else shop || '/' || own_name end as group_name, own_name,
    attempt_id, task_id, shop, job_no, system, position, attempt_no, nth, started_at, outcome
from (
    select 'technician' as grouping, technician as own_name, * from attempts
    union all select 'bay', bay, * from attempts
    union all select 'equipment', equipment, * from attempts
    union all select 'target', target, * from attempts
)
where own_name is not null
