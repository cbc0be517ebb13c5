-- Jobs that an import has brought whose number differs from another's of the shop only by zeros.
--
-- One row.
-- Columns:
--   jobs     how many
--   example  two such numbers; empty where there are none
-- Parameters:
--   $import  the import
with
with_zeros as (
    select shop, job_no, from_file, without_zeros(job_no) as short from jobs where without_zeros(job_no) <> job_no
),
pairs as (
    select one.shop, one.job_no, other.job_no as other_no, one.from_file, other.from_file as other_file
    from with_zeros as one
    join jobs as other on other.shop = one.shop and without_zeros(other.job_no) = one.short and other.job_no <> one.job_no
),
brought as (
    select shop, job_no, other_no
    from pairs
    where from_file in (select from_file from import_files where import = $import)
        or other_file in (select from_file from import_files where import = $import)
)
select count(*)::bigint as jobs, coalesce(min(other_no || ' and ' || job_no), '') as example
from (select distinct shop, without_zeros(job_no) as short, min(job_no) as job_no, min(other_no) as other_no from brought group by 1, 2)
