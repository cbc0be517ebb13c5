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
-- Source: definitions, Evidence. Dismissing a finding changes no figure.
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
    select shop, kind, count(*) as jobs
    from (
        select distinct shop, job_no, kind
        from findings
        semi join kinds using (kind)
    )
    semi join closed_jobs using (shop, job_no)
    group by shop, kind
)
-- no row means that no job has a finding of the kind
select shops.shop, kinds.kind, shops.jobs, coalesce(gaps.jobs, 0) as count
from shops
cross join kinds
left join gaps using (shop, kind)
order by list_position(string_split($kinds, ','), kinds.kind), shops.shop
