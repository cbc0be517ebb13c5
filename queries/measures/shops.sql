-- The shops on record.
--
-- One row: one shop that has a job.
-- Columns:
--   shop  the shop's identifier
-- Source: record layout.
select distinct shop from jobs order by shop
