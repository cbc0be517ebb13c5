-- The job number on record that is most like one that is not.
--
-- One row, none where no job is on record.
-- Columns:
--   shop    of the job
--   job_no  its number
-- Parameters:
--   $shop    of the record without a job
--   $job_no  the number that it names
-- The same number in another shop comes first, then one of the same digits, then the one that takes the fewest changes.
select shop, job_no
from jobs
order by
    job_no = $job_no desc,
    shop = $shop desc,
    ltrim(regexp_replace(job_no, '[^0-9]', '', 'g'), '0') = ltrim(regexp_replace($job_no, '[^0-9]', '', 'g'), '0') desc,
    levenshtein(job_no, $job_no), job_no, shop
limit 1
