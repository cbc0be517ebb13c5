-- The groups that tasks can be compared by.
--
-- One row: one task and grouping.
-- Columns:
--   grouping    technician | bay | equipment | target | supplier | brand | source | model | method | software_version |
--               shop | insurer | make | system | hour | weekday
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      of the task
--   position    of the task
--   job_id      as in known_jobs
--   task_id     as in attempt_order
--   started_at  start of the task's first attempt
--   first_pass  as in tasks
--   make        of the vehicle, commonest spelling
--   model_name  of the vehicle, without the make
--   group_name  null where the task's value is missing
-- Source: definitions, Compare. Supplier, brand and source are the windshield's, and only front-camera tasks have them.
select
    grouping, shop, job_no, system, position, job_id, task_id, started_at, first_pass, make, model_name, group_name
from (
    select 'technician' as grouping, *, technician as group_name from described_tasks
    union all select 'bay', *, bay from described_tasks
    union all select 'equipment', *, equipment from described_tasks
    union all select 'target', *, target from described_tasks
    union all select 'method', *, method from described_tasks
    union all select 'software_version', *, software_version from described_tasks
    union all select 'model', *, model from described_tasks
    union all select 'shop', *, shop from described_tasks
    union all select 'insurer', *, insurer from described_tasks
    union all select 'make', *, make from described_tasks
    union all select 'system', *, system::varchar from described_tasks
    union all select 'hour', *, hour from described_tasks
    union all select 'weekday', *, weekday from described_tasks
    union all select 'supplier', *, supplier from described_tasks where system = 'front_camera'
    union all select 'brand', *, brand from described_tasks where system = 'front_camera'
    union all select 'source', *, source from described_tasks where system = 'front_camera'
)
