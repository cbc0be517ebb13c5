-- Calibration attempts of known jobs, in their order within the task.
--
-- One row: one attempt started by the moment asked for.
-- Columns:
--   shop                 the shop's identifier
--   job_no               its repair-order number
--   system               system_word
--   position             position_word; null for the system as a whole
--   attempt_no           as recorded
--   nth                  1, 2, 3 … by started_at, then attempt_no, within the task
--   method               method_word
--   started_at           start
--   ended_at             end; null where missing or later than the moment asked for
--   started_on_date      started_at was a date alone
--   outcome              attempt_outcome_word
--   repeats_method       an earlier attempt of the task has the same method
--   follows_completed    an earlier attempt of the task with the same method was completed
--   failure_code         as the report gives it
--   failure_text         as the report gives it
--   technician           who made it
--   bay                  where
--   equipment            stand or frame
--   target               board
--   software_version     of the calibration equipment
--   procedure            the maker's procedure followed
--   provider             provider_word
--   from_file            line of import_files
--   job_id               as in known_jobs
--   task_id              as in attempt_order
--   attempt_id           as in attempt_order
--   known_as             the moment by which it was first known, where its source numbered nothing
--   number_given         its number was given by the import, and is no order
-- Source: definitions, Calibrations.
select
    shop, job_no, system, position, attempt_no, nth, method, started_at,
    case when ended_at <= as_of then ended_at end as ended_at,
    on_date(date_only, 'started_at') as started_on_date,
    outcome, repeats_method, follows_completed,
    failure_code, failure_text, technician, bay, equipment, target, software_version, procedure, provider,
    from_file, job_id, task_id, attempt_id, known_as, coalesce(number_given, false) as number_given
from calibrations as attempt
join attempt_order on attempt_order.attempt_id = attempt.rowid
cross join asked
