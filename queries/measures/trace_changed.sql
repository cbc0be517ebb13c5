-- What changed from one attempt of a task to the next in one job.
--
-- One row: one attempt and one thing that differs from the attempt before it.
-- Columns:
--   shop          the shop's identifier
--   job_no        its repair-order number
--   system        system_word
--   position      position_word; null for the system as a whole
--   attempt_no    of the later attempt
--   what          a field or a quantity
--   before        the field's value, or where the quantity lay: low | high | inside | no tolerance; null where missing
--   after         the same, of the later attempt
--   value_before  the quantity's value, in unit; null for a field
--   value_after   the same, of the later attempt
--   unit          the quantity's
-- Parameters:
--   $shop    the job's shop
--   $job_no  the job's number
-- Source: definitions, What changed.
select
    shop, job_no, system, position, next_attempt_no as attempt_no, what, before, after, value_before, value_after, unit
from compared_attempts
where is_changed and shop = $shop and job_no = $job_no
order by shop, job_no, system, position nulls first, next_attempt_no, value_before is not null, what
