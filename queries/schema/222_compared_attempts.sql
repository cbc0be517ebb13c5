-- What can be compared between consecutive attempts of a task, and whether it changed.
--
-- One row: one pair of attempts and one field, or one quantity that both measured.
-- Columns:
--   shop             the shop's identifier
--   job_no           its repair-order number
--   system           system_word
--   position         position_word; null for the system as a whole
--   attempt_no       of the earlier attempt
--   next_attempt_no  of the later one
--   next_started_at  start of the later
--   outcome          of the earlier
--   next_outcome     of the later
--   what             method | technician | bay | equipment | target | software_version | a quantity
--   before           the field's value; of a quantity low | high | inside | no tolerance; null where missing
--   after            the same, of the later attempt
--   value_before     the quantity's value, in unit; null for a field
--   value_after      the same, of the later attempt
--   unit             the quantity's stored unit
--   spec_low         lower bound of the later attempt's tolerance
--   spec_high        upper bound of the later attempt's tolerance
--   pair             the earlier attempt as a number, as in attempt_order
--   is_changed       the fields differ, a missing value being one of its own; or the quantity went from outside its
--                    tolerance to inside, or moved by more than a tenth of the later attempt's tolerance width
-- Source: definitions, What changed.
with
fields as (
    select *, 'method' as what, method as before, next_method as after from attempt_pairs
    union all select *, 'technician', technician, next_technician from attempt_pairs
    union all select *, 'bay', bay, next_bay from attempt_pairs
    union all select *, 'equipment', equipment, next_equipment from attempt_pairs
    union all select *, 'target', target, next_target from attempt_pairs
    union all select *, 'software_version', software_version, next_software_version from attempt_pairs
),
quantities as (
    select
        pair.*, later.quantity,
        round(earlier.value, 6) as value_before, round(later.value, 6) as value_after, later.unit,
        round(later.spec_low, 6) as spec_low, round(later.spec_high, 6) as spec_high,
        coalesce(earlier.outside, case
            when earlier.spec_low is null and earlier.spec_high is null then 'no tolerance' else 'inside' end) as before,
        coalesce(later.outside, case
            when later.spec_low is null and later.spec_high is null then 'no tolerance' else 'inside' end) as after
    from attempt_pairs as pair
    join measured as earlier on earlier.attempt_id = pair.attempt_id
    join measured as later on later.attempt_id = pair.next_attempt_id and later.quantity = earlier.quantity
)
select
    shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, outcome, next_outcome,
    what, before, after, null::double as value_before, null::double as value_after, null::unit_word as unit,
    null::double as spec_low, null::double as spec_high, attempt_id as pair, before is distinct from after as is_changed
from fields
union all
select
    shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, outcome, next_outcome,
    quantity::varchar, before, after, value_before, value_after, unit, spec_low, spec_high, attempt_id,
    (before in ('low', 'high') and after = 'inside')
        or coalesce(
            round(abs(value_after - value_before), 6) > round((spec_high - spec_low) / 10, 6),
            false                                 -- without both bounds there is no width to go by
        )
from quantities
