-- The single pairs of attempts behind a change, the latest first.
--
-- One row: one pair and one thing that changed.
-- Columns:
--   what             a field or a quantity
--   shop             the shop's identifier
--   job_no           its repair-order number
--   system           system_word
--   position         position_word; null for the system as a whole
--   attempt_no       of the attempt that did not complete
--   next_attempt_no  of the one after it
--   next_started_at  start of that one
--   next_outcome     of that one
--   before           the field's value, or where the quantity lay: low | high | inside | no tolerance; null where missing
--   after            the same, of the next attempt
--   value_before     the quantity's value, in unit; null for a field
--   value_after      the same, of the next attempt
--   unit             the quantity's
--   spec_low         lower bound of the next attempt's tolerance
--   spec_high        upper bound of the next attempt's tolerance
-- Parameters:
--   $what    only this thing; null for all
--   $system  only this system; null for all
--   $shop    only this shop; null for all
--   $from    only pairs whose later attempt started at or after this moment; null for all
--   $to      only pairs whose later attempt started at or before this moment; null for all
-- Source: definitions, What changed.
select
    what, shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, next_outcome,
    before, after, value_before, value_after, unit, spec_low, spec_high
from compared_attempts
where outcome <> 'completed' and is_changed
    and ($what is null or what = $what)
    and ($system is null or system = $system)
    and ($shop is null or shop = $shop)
    and ($from is null or next_started_at >= $from::timestamp)
    and ($to is null or next_started_at <= $to::timestamp)
order by what, next_started_at desc, shop, job_no, system, position, attempt_no
