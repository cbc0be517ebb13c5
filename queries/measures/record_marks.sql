-- Records that were taken in and marked, because something about them is not as it should be.
--
-- One row: one mark and kind of record.
-- Columns:
--   mark   vin_missing | vin_malformed | vin_check_digit | code_not_standard | ended_before_started | unattached |
--          after_as_of | date_alone
--   kind   jobs, glass, …
--   count  records with the mark
--   n      records of the kind
-- Parameters:
--   $shop  only this shop; null for all
-- Source: record layout, What an import must do; definitions, Attached. A mark without a record has no row.
with
chosen_jobs as (
    select *, vin_form(vin) as vin_form from jobs where $shop is null or shop = $shop
),
attached as (                     -- whose job, scan or attempt is on record, whether known by now or later
    select 'calibrations' as kind, shop from calibrations semi join jobs using (shop, job_no)
    union all
    select 'measurements', attempt.shop
    from owned_readings
    join calibrations as attempt on attempt.rowid = attempt_id
    semi join jobs using (shop, job_no)
    union all
    select 'measurements', shop from measurements semi join jobs using (shop, job_no) where system is null
    union all
    select 'scans', shop from scans semi join jobs using (shop, job_no)
    union all
    select 'faults', scan.shop
    from owned_faults
    join scans as scan on scan.rowid = scan_id
    semi join jobs using (shop, job_no)
),
own as materialized (
    select kind, count(*) as count from attached where $shop is null or shop = $shop group by kind
),
marked as (
    select 'vin_missing' as mark, 'jobs' as kind, count(*) filter (vin is null) as count, count(*) as n from chosen_jobs
    union all
    select 'vin_malformed', 'jobs', count(*) filter (vin_form = 'malformed'), count(*) from chosen_jobs
    union all                     -- position 9 is a check digit only in North America; elsewhere it is free
    select
        'vin_check_digit', 'jobs',
        count(*) filter (case when vin_form = 'well_formed' and vin[1] between '1' and '5'
            then vin[9] <> vin_check_digit(vin) end),
        count(*)
    from chosen_jobs
    union all
    select 'date_alone', 'jobs', count(date_only), count(*) from chosen_jobs
    union all
    select 'after_as_of', 'jobs', count(*) filter (opened_at > as_of), count(*) from chosen_jobs cross join asked
    union all
    select 'unattached', 'glass', count(*) filter (jobs.shop is null), count(*)
    from glass left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'ended_before_started', 'calibrations', count(*) filter (ended_at < started_at), count(*)
    from calibrations where $shop is null or shop = $shop
    union all
    select 'date_alone', 'calibrations', count(date_only), count(*)
    from calibrations where $shop is null or shop = $shop
    union all
    select 'unattached', 'calibrations', count(*) - (select coalesce(sum(count), 0) from own where kind = 'calibrations'),
        count(*)
    from calibrations where $shop is null or shop = $shop
    union all
    select 'unattached', 'measurements', count(*) - (select coalesce(sum(count), 0) from own where kind = 'measurements'),
        count(*)
    from measurements where $shop is null or shop = $shop
    union all
    select 'date_alone', 'scans', count(date_only), count(*) from scans where $shop is null or shop = $shop
    union all
    select 'unattached', 'scans', count(*) - (select coalesce(sum(count), 0) from own where kind = 'scans'), count(*)
    from scans where $shop is null or shop = $shop
    union all
    select 'code_not_standard', 'faults', count(*) filter (not standard_code(code)), count(*)
    from faults where $shop is null or shop = $shop
    union all
    select 'unattached', 'faults', count(*) - (select coalesce(sum(count), 0) from own where kind = 'faults'), count(*)
    from faults where $shop is null or shop = $shop
    union all
    select 'ended_before_started', 'road_tests', count(*) filter (ended_at < started_at), count(*)
    from road_tests where $shop is null or shop = $shop
    union all
    select 'unattached', 'road_tests', count(*) filter (jobs.shop is null), count(*)
    from road_tests left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'unattached', 'documents', count(*) filter (jobs.shop is null), count(*)
    from documents left join jobs using (shop, job_no) where $shop is null or shop = $shop
)
select mark, kind, count::bigint as count, n
from marked
where count > 0
order by mark, kind
