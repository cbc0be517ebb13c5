-- How long calibrated, closed jobs stayed away, one row a job.
--
-- One row: one job.
-- Columns:
--   cohort    the group asked for; null where the job has none, or none was asked for
--   days      to the counted comeback, else as long as the job was watched
--   came_back  the days end with a comeback
-- Parameters:
--   $by    source | supplier | model | half-year; empty for all jobs together
--   $shop  only this shop; null for all
--   $from  only jobs closed at or after this moment; null for all
--   $to    only jobs closed at or before this moment; null for all
-- Source: definitions, comeback curve. The return counts up to the window's last moment.
with
watched as (
    select
        case $by
            when 'source' then visit.windshield_source::varchar
            when 'supplier' then visit.supplier
            when 'model' then visit.make || ' ' || visit.model
            when 'half-year' then year(follow_up.closed_at) || '-H' || (quarter(follow_up.closed_at) + 1) // 2
        end as cohort,
        follow_up.return_days, follow_up.seen_days, window_days
    from follow_ups as follow_up
    join visits as visit using (job_id)
    cross join asked
    where ($shop is null or follow_up.shop = $shop)
        and ($from is null or follow_up.closed_at >= $from::timestamp)
        and ($to is null or follow_up.closed_at <= $to::timestamp)
)
select
    cohort,
    case when return_days <= window_days then return_days else seen_days end as days,
    coalesce(return_days <= window_days, false) as came_back
from watched
order by cohort, days, came_back
