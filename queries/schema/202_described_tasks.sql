-- Tasks with all that they can be grouped by.
--
-- One row: one task.
-- Columns:
--   shop              the shop's identifier
--   job_no            its repair-order number
--   system            system_word
--   position          position_word; null for the system as a whole
--   started_at        start of the first attempt
--   first_pass        as in tasks
--   technician        of the first attempt, written with the shop
--   bay               of the first attempt, written with the shop
--   equipment         of the first attempt, written with the shop
--   target            of the first attempt
--   method            of the first attempt
--   software_version  of the first attempt
--   make              commonest spelling
--   model_name        commonest spelling, without the make
--   model             make and model
--   insurer           commonest spelling
--   supplier          of the job's windshield, commonest spelling
--   brand             of the job's windshield, commonest spelling
--   source            of the job's windshield
--   hour              of the start, 00 to 23; null where the start is a date alone
--   weekday           of the start, Mon to Sun
--   job_id            as in known_jobs
--   task_id           as in attempt_order
-- Source: definitions, Compare. People, bays and stands are one shop's own and are written with it.
select
    task.shop, task.job_no, task.system, task.position, task.started_at, task.first_pass,
    task.shop || '/' || task.technician as technician, task.shop || '/' || task.bay as bay,
    task.shop || '/' || task.equipment as equipment, task.target, task.method::varchar as method,
    task.software_version, visit.make, visit.model as model_name, visit.make || ' ' || visit.model as model,
    visit.insurer, visit.supplier, visit.brand, visit.windshield_source::varchar as source,
    case when not task.started_on_date then strftime(task.started_at, '%H') end as hour,
    strftime(task.started_at, '%a') as weekday,
    task.job_id, task.task_id
from tasks as task
join visits as visit using (job_id)
