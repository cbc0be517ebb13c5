-- Documents of known jobs added by the moment asked for, or at a time that is not recorded.
--
-- One row: one document.
-- Columns:
--   shop           the shop's identifier
--   job_no         its repair-order number
--   kind           document_word
--   file_name      as listed
--   sha256         as listed, hexadecimal
--   added_at       when it was added
--   added_on_date  added_at was a date alone
--   from_file      line of import_files
--   job_id         as in known_jobs
-- Source: definitions, As-of and Attached.
select
    shop, job_no, kind, file_name, sha256, added_at, on_date(date_only, 'added_at') as added_on_date,
    documents.from_file, job_id
from documents
join known_jobs using (shop, job_no)
cross join asked
where added_at is null or added_at <= as_of
