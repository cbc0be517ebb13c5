-- How many of the records that an import has brought or met belong to nothing on record.
--
-- One row.
-- Columns:
--   records  brought or met
--   lost     of these, whose job is not on record
--   stray    of these, whose job is on record, and whose attempt or scan is not
--   shop     of an example of the lost ones; empty where there is none
--   job_no   of that example
--   zeros    how many of the lost ones name a job that differs from one on record only by zeros
--   alike    one of these numbers, and the one on record; empty where there is none
with
brought as (
    select rowid as record, shop, job_no{{if .Owner}}, {{if eq .Table "measurements"}}system is null{{else}}false{{end}} as of_job{{end}}
    from {{.Table}}
    where from_file in (select from_file from brought_files where kind = '{{.Table}}')
        or rowid in (select record from met_records where kind = '{{.Table}}')
),
lost as (
    select * from brought anti join jobs using (shop, job_no)
),
zeros as (
    select lost.shop, lost.job_no, min(jobs.job_no) as alike, count(distinct record) as records
    from lost
    join jobs on jobs.shop = lost.shop and without_zeros(jobs.job_no) = without_zeros(lost.job_no)
    group by all
)
{{- if .Owner}},
stray as (
    select record
    from (select record from brought semi join jobs using (shop, job_no) where not of_job) as whose_job_is_there
    anti join (select {{if eq .Table "measurements"}}reading_id{{else}}fault_id{{end}} as record from {{if eq .Table "measurements"}}owned_readings{{else}}owned_faults{{end}}) as owned using (record)
)
{{- end}}
select
    (select count(*) from brought)::bigint as records,
    (select count(*) from lost)::bigint as lost,
    {{if .Owner}}(select count(*) from stray)::bigint{{else}}0::bigint{{end}} as stray,
    coalesce((select min(shop) from lost), '') as shop,
    coalesce((select min(job_no) from lost where shop = (select min(shop) from lost)), '') as job_no,
    coalesce((select sum(records) from zeros), 0)::bigint as zeros,
    coalesce((select min(job_no || ' and ' || alike) from zeros), '') as alike
