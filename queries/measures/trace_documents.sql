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
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
),
listed as (
    select documents.* from documents join named using (shop, job_no)
)
select shop, job_no, kind, file_name, sha256, added_at, on_date(date_only, 'added_at') as added_on_date
from listed
semi join known_jobs using (shop, job_no)
cross join asked
where added_at is null or added_at <= as_of
order by shop, job_no, kind, file_name
