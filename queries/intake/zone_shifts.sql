-- Lay out a time zone: from which moment of UTC on its clocks are how many seconds ahead.
--
-- Parameters:
--   $shifts  a JSON array of {"since", "seconds"}
create or replace temporary table zone_shifts as
select shift.since::timestamp as since, shift.seconds as seconds
from (select unnest(from_json($shifts::json, '[{"since":"VARCHAR","seconds":"BIGINT"}]')) as shift)
