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
--   group_name  null where the task's value is missing
-- Source: definitions, Compare. Supplier, brand and source are the windshield's, and only front-camera tasks have them.
select 'technician' as grouping, shop, job_no, system, position, job_id, technician as group_name from described_tasks
union all select 'bay', shop, job_no, system, position, job_id, bay from described_tasks
union all select 'equipment', shop, job_no, system, position, job_id, equipment from described_tasks
union all select 'target', shop, job_no, system, position, job_id, target from described_tasks
union all select 'method', shop, job_no, system, position, job_id, method from described_tasks
union all select 'software_version', shop, job_no, system, position, job_id, software_version from described_tasks
union all select 'model', shop, job_no, system, position, job_id, model from described_tasks
union all select 'shop', shop, job_no, system, position, job_id, shop from described_tasks
union all select 'hour', shop, job_no, system, position, job_id, hour from described_tasks
union all select 'weekday', shop, job_no, system, position, job_id, weekday from described_tasks
union all
select 'supplier', shop, job_no, system, position, job_id, supplier from described_tasks where system = 'front_camera'
union all
select 'brand', shop, job_no, system, position, job_id, brand from described_tasks where system = 'front_camera'
union all
select 'source', shop, job_no, system, position, job_id, source from described_tasks where system = 'front_camera'
