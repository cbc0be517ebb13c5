-- The groups that tasks can be compared by.
--
-- One row: one task and grouping.
-- Columns:
--   grouping    technician | bay | equipment | target | supplier | brand | source | model | method | software_version |
--               shop | hour | weekday
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      of the task
--   position    of the task
--   job_id      as in known_jobs
--   task_id     as in attempt_order
--   started_at  start of the task's first attempt
--   first_pass  as in tasks
--   group_name  null where the task's value is missing
-- Source: definitions, Compare. Supplier, brand and source are the windshield's, and only front-camera tasks have them.
select
    'technician' as grouping, shop, job_no, system, position, job_id, task_id, started_at, first_pass,
    technician as group_name
from described_tasks
union all
select 'bay', shop, job_no, system, position, job_id, task_id, started_at, first_pass, bay
from described_tasks
union all
select 'equipment', shop, job_no, system, position, job_id, task_id, started_at, first_pass, equipment
from described_tasks
union all
select 'target', shop, job_no, system, position, job_id, task_id, started_at, first_pass, target
from described_tasks
union all
select 'method', shop, job_no, system, position, job_id, task_id, started_at, first_pass, method
from described_tasks
union all
select 'software_version', shop, job_no, system, position, job_id, task_id, started_at, first_pass, software_version
from described_tasks
union all
select 'model', shop, job_no, system, position, job_id, task_id, started_at, first_pass, model
from described_tasks
union all
select 'shop', shop, job_no, system, position, job_id, task_id, started_at, first_pass, shop
from described_tasks
union all
select 'hour', shop, job_no, system, position, job_id, task_id, started_at, first_pass, hour
from described_tasks
union all
select 'weekday', shop, job_no, system, position, job_id, task_id, started_at, first_pass, weekday
from described_tasks
union all
select 'supplier', shop, job_no, system, position, job_id, task_id, started_at, first_pass, supplier
from described_tasks
where system = 'front_camera'
union all
select 'brand', shop, job_no, system, position, job_id, task_id, started_at, first_pass, brand
from described_tasks
where system = 'front_camera'
union all
select 'source', shop, job_no, system, position, job_id, task_id, started_at, first_pass, source
from described_tasks
where system = 'front_camera'
