-- What shops, or insurers' jobs, brought: work, gaps in the records, and work done again.
--
-- One row: one shop or insurer, the one with most jobs first; jobs that name no insurer are none's.
-- Columns:
--   group_name   the shop's identifier, or the insurer in its commonest spelling
--   jobs         opened in the span
--   closed       calibrated jobs closed in the span
--   with_gap     of these, with a finding of the kinds; a dismissed one is no gap
--   attempts     calibration attempts started in the span
--   again        of these, work done again
--   without_end  of these, those that have no end and so no hours
--   hours        of the work done again
-- Parameters:
--   $by     shop | insurer
--   $kinds  kinds of finding, joined by commas
--   $shop   only this shop; null for all
--   $from   only what falls at or after this moment; null for all
--   $to     only what falls at or before this moment; null for all
-- Source: experience, The review (by shop and by insurer); definitions, Evidence and Cost of rework.
with
grouped as materialized (
    select
        job_id, shop, job_no, opened_at, closed_at, is_calibrated,
        case $by when 'shop' then shop when 'insurer' then insurer end as group_name
    from visits
    where $shop is null or shop = $shop
),
gaps as (
    select distinct shop, job_no
    from findings
    where list_contains(string_split($kinds, ','), kind) and decision is distinct from 'dismissed'
),
jobs as (
    select
        group_name,
        count(*) filter (
            ($from is null or opened_at >= $from::timestamp) and ($to is null or opened_at <= $to::timestamp)
        ) as jobs,
        count(*) filter (is_closed) as closed,
        count(*) filter (is_closed and has_gap) as with_gap
    from (
        select
            grouped.*, gaps.shop is not null as has_gap,
            is_calibrated and closed_at is not null
                and ($from is null or closed_at >= $from::timestamp) and ($to is null or closed_at <= $to::timestamp) as is_closed
        from grouped
        left join gaps on gaps.shop = grouped.shop and gaps.job_no = grouped.job_no
    )
    group by group_name
),
work as (
    select
        group_name, count(*) as attempts, count(rework.attempt_id) as again,
        count(rework.attempt_id) filter (seconds is null) as without_end,
        coalesce(sum(seconds), 0)::bigint / 3600 as hours
    from grouped
    join attempts as attempt using (job_id)
    left join rework_attempts as rework on rework.attempt_id = attempt.attempt_id
    where ($from is null or attempt.started_at >= $from::timestamp) and ($to is null or attempt.started_at <= $to::timestamp)
    group by group_name
)
select
    group_name, jobs.jobs, closed, with_gap, coalesce(attempts, 0) as attempts, coalesce(again, 0) as again,
    coalesce(without_end, 0) as without_end, coalesce(hours, 0) as hours     -- no row: no attempt in the span
from jobs
left join work using (group_name)
where group_name is not null and (jobs.jobs > 0 or closed > 0 or attempts > 0)
order by jobs.jobs desc, group_name
