-- Which definitions of the views the history carries.
--
-- One row.
-- Columns:
--   views_digest  SHA-256 over them; empty before they were first made
select coalesce(views_digest, '') as views_digest from history_schema
