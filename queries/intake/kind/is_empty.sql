-- Whether no record of the kind is on file.
--
-- One row.
-- Columns:
--   empty  there is none
select count(*) = 0 as empty from (select 1 from {{.Table}} limit 1)
