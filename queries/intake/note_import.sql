-- Enter a run of the import command in the journal.
--
-- Parameters:
--   $import        its number
--   $at            wall clock
--   $zone          the zone that offsets are converted to; null: the wall clock is kept
--   $tool_version  of plumbline
insert into imports (import, at, zone, tool_version) values ($import, $at::timestamp, $zone, $tool_version)
