-- Readings by which a stand or board can be seen to drift, as deviations from the middle of their tolerance.
--
-- One row: one measured value of an attempt, with both bounds of its tolerance.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word
--   position    position_word; null for the system as a whole
--   attempt_no  of the attempt
--   quantity    target_distance | target_offset | target_height | ride_height_lf, rf, lr, rr | pitch | yaw | roll
--   taken_at    start of the attempt
--   equipment   stand or frame, as shop/equipment
--   target      the board
--   value       in unit
--   unit        the quantity's stored unit
--   half_width  half of the tolerance's width, in unit
--   deviation   from the middle of the tolerance, in half widths: -1 is the lower bound, 1 the upper
--   is_slip     a unit_suspect: outside, and inside once taken for inches or for ten times more or less
-- Source: definitions, Evidence (unit_suspect); deviations in half widths put vehicles with different tolerances on one
-- scale. Joining unit_suspect would cost seconds; a test holds the two equal.
select
    shop, job_no, system, position, attempt_no, quantity, taken_at,
    shop || '/' || equipment as equipment, target, value, unit,
    round((spec_high - spec_low) / 2, 6) as half_width,
    round((2 * value - spec_high - spec_low) / (spec_high - spec_low), 6) as deviation,
    outside is not null and quantity not in ('pitch', 'yaw', 'roll')
        and coalesce(meant(value, 25.4, spec_low, spec_high), meant(value, 10, spec_low, spec_high)) is not null as is_slip
from readings
where quantity in (
        'target_distance', 'target_offset', 'target_height', 'ride_height_lf', 'ride_height_rf', 'ride_height_lr',
        'ride_height_rr', 'pitch', 'yaw', 'roll'
    )
    and system is not null and spec_high > spec_low
