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
--   is_changed       the fields differ, a missing value being one of its own; or the quantity went from outside its
--                    tolerance to inside, or moved by more than a tenth of the later attempt's tolerance width
-- Source: definitions, What changed.
with
fields as (
    select
        shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, outcome, next_outcome,
        unnest([
            {'what': 'method', 'before': method, 'after': next_method},
            {'what': 'technician', 'before': technician, 'after': next_technician},
            {'what': 'bay', 'before': bay, 'after': next_bay},
            {'what': 'equipment', 'before': equipment, 'after': next_equipment},
            {'what': 'target', 'before': target, 'after': next_target},
            {'what': 'software_version', 'before': software_version, 'after': next_software_version}
        ], recursive := true)
    from attempt_pairs
),
measured as (                     -- of attempts that stand in a pair only: few, and readings of all would cost seconds
    select
        reading.shop, reading.job_no, reading.system, reading.position, reading.attempt_no, reading.quantity,
        round(reading.value, 6) as value, reading.unit,
        round(reading.spec_low, 6) as spec_low, round(reading.spec_high, 6) as spec_high,
        coalesce(
            outside(reading.value, reading.spec_low, reading.spec_high),
            case when reading.spec_low is null and reading.spec_high is null then 'no tolerance' else 'inside' end
        ) as state
    from measurements as reading
    semi join attempt_pairs as pair
        on pair.shop = reading.shop and pair.job_no = reading.job_no and pair.system = reading.system
        and pair.position is not distinct from reading.position
),
quantities as (
    select
        pair.shop, pair.job_no, pair.system, pair.position, pair.attempt_no, pair.next_attempt_no,
        pair.next_started_at, pair.outcome, pair.next_outcome,
        earlier.quantity::varchar as what, earlier.state as before, later.state as after,
        earlier.value as value_before, later.value as value_after, later.unit, later.spec_low, later.spec_high,
        (earlier.state in ('low', 'high') and later.state = 'inside')
            or coalesce(
                round(abs(later.value - earlier.value), 6) > round((later.spec_high - later.spec_low) / 10, 6),
                false                             -- without both bounds there is no width to go by
            ) as is_changed
    from attempt_pairs as pair
    join measured as earlier
        on earlier.shop = pair.shop and earlier.job_no = pair.job_no and earlier.system = pair.system
        and earlier.position is not distinct from pair.position and earlier.attempt_no = pair.attempt_no
    join measured as later
        on later.shop = pair.shop and later.job_no = pair.job_no and later.system = pair.system
        and later.position is not distinct from pair.position and later.attempt_no = pair.next_attempt_no
        and later.quantity = earlier.quantity
)
select
    shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, outcome, next_outcome,
    what, before, after, null::double as value_before, null::double as value_after, null::unit_word as unit,
    null::double as spec_low, null::double as spec_high, before is distinct from after as is_changed
from fields
union all
select
    shop, job_no, system, position, attempt_no, next_attempt_no, next_started_at, outcome, next_outcome,
    what, before, after, value_before, value_after, unit, spec_low, spec_high, is_changed
from quantities
