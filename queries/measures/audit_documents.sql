-- Documents listed for the bundle's jobs.
--
-- One row: one document.
-- Columns:
--   shop       the shop's identifier
--   job_no     its repair-order number
--   kind       kind of document
--   file_name  as listed
--   sha256     as listed
--   added_at   when it was added
--   date_only  names of the timestamps that were given as a date alone
select
    shop, job_no, kind, file_name, sha256, added_at,
    case when added_on_date then 'added_at' end as date_only
from known_documents
join (select job_id from bundle_jobs) as mine using (job_id)
order by shop, job_no, kind, file_name
