-- How often a shop's records lack something, of the closed jobs of which it could be said.
--
-- One row: one shop and kind of finding.
-- Columns:
--   shop   the shop's identifier
--   kind   missing_scan | missing_road_test | missing_document | missing_calibration | late_pre_scan | stale_post_scan
--   n      closed jobs of which it could be raised
--   count  of these, with such a finding
-- Parameters:
--   $from  only jobs closed at or after this moment; null for all
--   $to    only jobs closed at or before this moment; null for all
-- Source: definitions, What stands out (gap). A dismissed finding counts: dismissing changes no figure.
with
completed_jobs as (
    select distinct job_id from attempts where outcome = 'completed'
),
closed_jobs as materialized (
    select visit.*, completed_jobs.job_id is not null as has_completed
    from visits as visit
    left join completed_jobs on completed_jobs.job_id = visit.job_id
    where closed_at is not null
        and ($from is null or closed_at >= $from::timestamp)
        and ($to is null or closed_at <= $to::timestamp)
),
could_be as (
    select shop, job_no, unnest([
        case when is_calibrated then 'missing_scan' end,
        case when has_completed then 'missing_road_test' end,
        case when is_calibrated then 'missing_document' end,
        case when calls_for_camera or reason in ('wheel_alignment', 'suspension_work') then 'missing_calibration' end,
        case when is_calibrated and before_scan_no is not null then 'late_pre_scan' end,
        case when is_calibrated and after_scan_no is not null then 'stale_post_scan' end
    ]) as kind
    from closed_jobs
),
raised_ones as (
    select distinct shop, job_no, kind
    from findings
    where kind in ('missing_scan', 'missing_road_test', 'missing_document', 'missing_calibration', 'late_pre_scan',
                   'stale_post_scan')
)
select shop, kind, count(*) as n, count(raised_ones.job_no) as count
from could_be
left join raised_ones using (shop, job_no, kind)
where kind is not null
group by shop, kind
order by kind, shop
