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
--   group_name  null where the task's value is missing
-- Source: definitions, Compare. People, bays and stands are one shop's own and are written with it; supplier, brand and
-- source are the windshield's, and only front-camera tasks have them.
with
described as (
    select
        task.shop, task.job_no, task.system, task.position, task.started_at,
        task.shop || '/' || task.technician as technician, task.shop || '/' || task.bay as bay,
        task.shop || '/' || task.equipment as equipment, task.target, task.method::varchar as method,
        task.software_version, visit.make || ' ' || visit.model as model,
        visit.supplier, visit.brand, visit.windshield_source::varchar as source
    from tasks as task
    join visits as visit using (shop, job_no)
)
select 'technician' as grouping, shop, job_no, system, position, technician as group_name from described
union all select 'bay', shop, job_no, system, position, bay from described
union all select 'equipment', shop, job_no, system, position, equipment from described
union all select 'target', shop, job_no, system, position, target from described
union all select 'method', shop, job_no, system, position, method from described
union all select 'software_version', shop, job_no, system, position, software_version from described
union all select 'model', shop, job_no, system, position, model from described
union all select 'shop', shop, job_no, system, position, shop from described
union all select 'hour', shop, job_no, system, position, strftime(started_at, '%H') from described
union all select 'weekday', shop, job_no, system, position, strftime(started_at, '%a') from described
union all
select 'supplier', shop, job_no, system, position, supplier from described where system = 'front_camera'
union all
select 'brand', shop, job_no, system, position, brand from described where system = 'front_camera'
union all
select 'source', shop, job_no, system, position, source from described where system = 'front_camera'
