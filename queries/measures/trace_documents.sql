-- Documents of the jobs asked for that were added by the moment asked for, or at a time that is not recorded.
--
-- One row: one document.
-- Columns:
--   shop           the shop's identifier
--   job_no         its repair-order number
--   kind           document_word
--   file_name      as recorded
--   sha256         of the file; null where not recorded
--   added_at       when; null where not recorded
--   added_on_date  added_at was a date alone
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
-- Source: definitions, As-of.
select shop, job_no, kind, file_name, sha256, added_at, on_date(date_only, 'added_at') as added_on_date
from documents
semi join known_jobs using (shop, job_no)
cross join asked
where (added_at is null or added_at <= as_of)
    and list_contains(string_split($jobs, chr(30)), shop || chr(31) || job_no)
order by shop, job_no, kind, file_name
