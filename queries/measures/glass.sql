-- Front-camera outcomes by the windshield's source and stratum.
--
-- One row: one outcome, source and stratum.
-- Columns:
--   outcome  not_first_pass | post_scan_fault | comeback
--   source   aftermarket | oee | oem | recycled
--   stratum  values of the chosen factors, joined; null where one of them is missing
--   n        units
--   count    of these, where the outcome occurred
-- Parameters:
--   $strata  the chosen factors among make, model, shop, method, model_year, joined by commas
--   $shop    only this shop; null for all
--   $from    only units at or after this moment; null for all
--   $to      only units at or before this moment; null for all
-- Source: definitions, Glass source.
with
population as materialized (
    select
        task.job_id, task.shop, task.position, task.started_at, task.attempt_no, task.first_pass, task.method,
        visit.windshield_source as source, visit.make, visit.model, visit.model_year,
        visit.before_scan_no, visit.after_scan_no
    from tasks as task
    join visits as visit using (job_id)
    where task.system = 'front_camera' and visit.windshield_source in ('oem', 'oee', 'aftermarket', 'recycled')
),
camera_faults as (
    select distinct job_id
    from post_scan_faults
    where stage = 'post' and is_open and system = 'front_camera' and class in ('new', 'remaining')
),
jobs_once as (                    -- a job counts once, with the method of its first front-camera task
    select * from population
    qualify row_number() over (partition by job_id order by started_at, position nulls first) = 1
),
units as (
    select 'not_first_pass' as outcome, *, started_at as at, (not first_pass)::bigint as hit
    from population
    union all
    select 'post_scan_fault', job.*, after.scanned_at, (camera_faults.job_id is not null)::bigint
    from jobs_once as job
    join known_scans as after
        on after.job_id = job.job_id and after.scan_no = job.after_scan_no
    left join camera_faults on camera_faults.job_id = job.job_id
    where job.before_scan_no is not null
    union all
    select 'comeback', job.*, follow_up.closed_at, follow_up.came_back::bigint
    from jobs_once as job
    join follow_ups as follow_up using (job_id)
    where follow_up.matured
),
layered as (
    select
        outcome, source, hit,
        list_filter(
            [
                case when list_contains(factors, 'make') then coalesce(make, chr(0)) end,
                case when list_contains(factors, 'model') then coalesce(model, chr(0)) end,
                case when list_contains(factors, 'shop') then shop end,
                case when list_contains(factors, 'method') then coalesce(method::varchar, chr(0)) end,
                case when list_contains(factors, 'model_year') then coalesce(model_year::varchar, chr(0)) end
            ],
            layer -> layer is not null
        ) as layers
    from units
    cross join (select string_split($strata, ',') as factors)
    where ($shop is null or shop = $shop)
        and ($from is null or at >= $from::timestamp)
        and ($to is null or at <= $to::timestamp)
)
select
    outcome, source::varchar as source,
    -- chr(0) stands for a missing value, which is in no stratum
    case when not list_contains(layers, chr(0)) then array_to_string(layers, ' / ') end as stratum,
    count(*) as n, sum(hit)::bigint as count
from layered
group by all
order by all
