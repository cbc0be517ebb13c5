-- A fingerprint of everything that was ever imported, which nobody can know who has not all the files.
--
-- One row.
-- Columns:
--   digest  SHA-256 over the hashes of all imported files in their order
select sha256(coalesce(string_agg(sha256, ' ' order by from_file), '')) as digest
from import_files
