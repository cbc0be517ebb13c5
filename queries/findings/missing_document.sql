-- Documents that the requirement policy asks for and the record of a closed calibrated job lacks.
--
-- One row: one job and kind of document.
-- Columns:
--   class       one of the classes below
--   shop        the shop's identifier
--   job_no      its repair-order number
--   subject     the kind of document
--   at          when the job was closed
--   technician  who led the job
--   detail      how many are on record, and how many are asked for
-- Finding:
--   name      Document missing
--   means     A document that the requirements ask for is not on record.
--   rule      A closed calibrated job without a kind of document that the requirement policy asks for; one a job and
--             kind of document. Without a policy nothing is asked for.
--   page      evidence 40
--   severity  medium
--   identity  keys and class
-- Classes:
--   document_word  the kind of document
-- Source: definitions, Evidence. Without a policy nothing is asked for.
with
wanted as materialized (
    select job_id, subject as kind, amount::bigint as at_least
    from demands
    where what = 'document'
),
jobs_asked as (                   -- none without a policy
    select shop, job_no, job_id from known_jobs join (select distinct job_id from wanted) using (job_id)
),
held as (
    select job_id, kind, count(*) as documents
    from documents
    join jobs_asked using (shop, job_no)
    cross join asked
    where added_at is null or added_at <= as_of
    group by job_id, kind
)
select
    wanted.kind as class, visit.shop, visit.job_no, wanted.kind as subject, visit.closed_at as at, visit.technician,
    case
        when held.documents is null then 'none on record'
        else held.documents || ' on record, ' || wanted.at_least || ' asked for'
    end as detail
from wanted
left join held on held.job_id = wanted.job_id and held.kind::varchar = wanted.kind
join visits as visit on visit.job_id = wanted.job_id
-- no row means that no such document is on record
where coalesce(held.documents, 0) < wanted.at_least
