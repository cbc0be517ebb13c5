-- Documents that the requirement policy asks for and the record of a closed calibrated job lacks.
--
-- One row: one job and kind of document.
-- Columns:
--   class       the kind of document
--   shop        the shop's identifier
--   job_no      its repair-order number
--   subject     the kind of document
--   at          when the job was closed
--   technician  who led the job
--   detail      how many are on record, and how many are asked for
-- Source: definitions, Evidence. Without a policy nothing is asked for.
with
wanted as (
    select job_id, shop, job_no, subject as kind, amount::bigint as at_least
    from demands
    where what = 'document'
),
held as (
    select shop, job_no, kind::varchar as kind, count(*) as documents
    from (select * from documents semi join wanted using (shop, job_no))      -- none without a policy
    cross join asked
    where added_at is null or added_at <= as_of
    group by shop, job_no, kind
)
select
    wanted.kind as class, wanted.shop, wanted.job_no, wanted.kind as subject, visit.closed_at as at, visit.technician,
    case
        when held.documents is null then 'none on record'
        else held.documents || ' on record, ' || wanted.at_least || ' asked for'
    end as detail
from wanted
join visits as visit using (job_id)
left join held on held.shop = wanted.shop and held.job_no = wanted.job_no and held.kind = wanted.kind
-- no row means that no such document is on record
where coalesce(held.documents, 0) < wanted.at_least
