-- Note the version that the tables of an older history have been brought to.
--
-- Parameters:
--   $version  2, 3, 4 …
update history_schema set version = $version
