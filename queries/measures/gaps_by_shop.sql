-- Which share of each shop's calibrated jobs has a gap in its record, by kind of finding.
--
-- One row: one shop and kind.
-- Columns:
--   shop   the shop's identifier
--   kind   the kind of finding
--   jobs   calibrated jobs closed in the span
--   count  of these, with a finding of the kind
-- Parameters:
--   $kinds  these kinds, joined by commas
--   $shop   only this shop; null for all
--   $from   only jobs closed at or after this moment; null for all
--   $to     only jobs closed at or before this moment; null for all
-- Source: definitions, Evidence. A dismissed finding is no gap.
with
closed_jobs as (
    select shop, job_no
    from visits
    where is_calibrated and closed_at is not null
        and ($shop is null or shop = $shop)
        and ($from is null or closed_at >= $from::timestamp)
        and ($to is null or closed_at <= $to::timestamp)
),
shops as (
    select shop, count(*) as jobs
    from closed_jobs
    group by shop
),
kinds as (
    select unnest(string_split($kinds, ',')) as kind
),
gaps as (
    select distinct shop, job_no, kind
    from findings
    where decision is distinct from 'dismissed'
)
select shops.shop, kinds.kind, shops.jobs, count(gaps.job_no) as count
from shops
cross join kinds
left join closed_jobs on closed_jobs.shop = shops.shop
left join gaps on gaps.shop = closed_jobs.shop and gaps.job_no = closed_jobs.job_no and gaps.kind = kinds.kind
group by shops.shop, kinds.kind, shops.jobs
order by list_position(string_split($kinds, ','), kinds.kind), shops.shop
