-- How many keys the records of the kind have, by a hash of 64 bits. Two keys of one hash only send a file the longer way.
--
-- One row.
-- Columns:
--   keys  how many
select count(distinct hash({{list "" .Key}})) as keys from {{.Table}}
