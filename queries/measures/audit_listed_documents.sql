-- All documents that any job lists, the latest too, to tell whose a file of a folder is and which nobody lists.
--
-- One row: one document.
-- Columns:
--   shop       the shop's identifier
--   job_no     its repair-order number
--   file_name  as listed
select shop, job_no, file_name
from documents
order by shop, job_no, file_name
