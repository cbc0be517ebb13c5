-- Consecutive attempts of a task, each beside the next.
--
-- One row: one attempt that another follows in its task.
-- Columns:
--   shop                   the shop's identifier
--   job_no                 its repair-order number
--   system                 system_word
--   position               position_word; null for the system as a whole
--   attempt_no             of the earlier attempt
--   next_attempt_no        of the later one
--   started_at             start of the earlier
--   ended_at               end of the earlier; null where missing
--   next_started_at        start of the later
--   outcome                of the earlier
--   next_outcome           of the later
--   failure_code           of the earlier
--   failure_text           of the earlier
--   method                 of the earlier
--   next_method            of the later
--   technician             of the earlier, as shop/technician
--   next_technician        of the later, as shop/technician
--   bay                    of the earlier, as shop/bay
--   next_bay               of the later, as shop/bay
--   equipment              of the earlier, as shop/equipment
--   next_equipment         of the later, as shop/equipment
--   target                 of the earlier
--   next_target            of the later
--   software_version       of the earlier
--   next_software_version  of the later
--   attempt_id             of the earlier, as in attempt_order
--   next_attempt_id        of the later, as in attempt_order
-- Source: definitions, Calibrations (task, what changed).
select
    earlier.shop, earlier.job_no, earlier.system, earlier.position,
    earlier.attempt_no, later.attempt_no as next_attempt_no,
    earlier.started_at, earlier.ended_at, later.started_at as next_started_at,
    earlier.outcome, later.outcome as next_outcome, earlier.failure_code, earlier.failure_text,
    earlier.method::varchar as method, later.method::varchar as next_method,
    earlier.shop || '/' || earlier.technician as technician, later.shop || '/' || later.technician as next_technician,
    earlier.shop || '/' || earlier.bay as bay, later.shop || '/' || later.bay as next_bay,
    earlier.shop || '/' || earlier.equipment as equipment, later.shop || '/' || later.equipment as next_equipment,
    earlier.target, later.target as next_target,
    earlier.software_version, later.software_version as next_software_version,
    earlier.attempt_id, later.attempt_id as next_attempt_id
from attempts as earlier
join (select * from attempts where nth > 1) as later
    on later.task_id = earlier.task_id and later.nth = earlier.nth + 1
