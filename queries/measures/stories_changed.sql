-- What differed between an attempt and the one before it, in many jobs at once.
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
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
-- Source: definitions, What changed.
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
)
select
    shop, job_no, system, position, next_attempt_no as attempt_no, what, before, after, value_before, value_after, unit
from compared_attempts
join named using (shop, job_no)
where is_changed
order by shop, job_no, system, position nulls first, next_attempt_no, value_before is not null, what
