-- Note which definitions of the views the history now carries.
--
-- Parameters:
--   $digest  SHA-256 over them
update history_schema set views_digest = $digest
