-- Note a file of the import in hand, or an earlier one that was met again as it was.
--
-- Parameters:
--   $kind       the kind of record
--   $from_file  its number
insert into brought_files values ($kind, $from_file)
