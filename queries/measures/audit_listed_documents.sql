-- All documents that any job lists, to tell which files of a folder nobody lists.
--
-- One row: one document.
-- Columns:
--   shop       the shop's identifier
--   job_no     its repair-order number
--   file_name  as listed
select shop, job_no, file_name
from known_documents
order by shop, job_no, file_name
