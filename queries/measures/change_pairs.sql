-- The single pairs of attempts behind a change, or that differ in nothing on record, the latest first.
--
-- One row: one pair and one thing that changed.
-- Columns:
--   what             a field, a quantity, or nothing
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
--   $what    only this thing, or nothing; null for all
--   $system  only this system; null for all
--   $shop    only this shop; null for all
--   $from    only pairs whose later attempt started at or after this moment; null for all
--   $to      only pairs whose later attempt started at or before this moment; null for all
-- Source: definitions, What changed.
with
compared as materialized (
    select *
    from compared_attempts
    where outcome <> 'completed'
        and ($system is null or system = $system)
        and ($shop is null or shop = $shop)
        and ($from is null or next_started_at >= $from::timestamp)
        and ($to is null or next_started_at <= $to::timestamp)
)
select
    what, shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, next_outcome,
    before, after, value_before, value_after, unit, spec_low, spec_high
from compared
where is_changed and ($what is null or what = $what)
union all
select
    'nothing', any_value(shop), any_value(job_no), any_value(system), any_value(position), any_value(attempt_no),
    any_value(next_attempt_no), any_value(next_started_at), any_value(next_outcome), null, null, null, null, null, null, null
from compared
where $what is null or $what = 'nothing'
group by pair
having not bool_or(is_changed)
order by what, next_started_at desc, shop, job_no, system, position, attempt_no
