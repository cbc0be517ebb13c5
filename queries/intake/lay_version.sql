-- Note the version of the tables just made.
--
-- Parameters:
--   $version  1, 2, 3 …
insert into history_schema (version) values ($version)
