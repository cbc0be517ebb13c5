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
chosen_jobs as (select * from jobs where $shop is null or shop = $shop),
marked as (
    select 'vin_missing' as mark, 'jobs' as kind, vin is null as hit from chosen_jobs
    union all select 'vin_malformed', 'jobs', vin_form(vin) = 'malformed' from chosen_jobs
    union all
    -- position 9 is a check digit only in North America; elsewhere it is free
    select 'vin_check_digit', 'jobs',
        case when vin_form(vin) = 'well_formed' and vin[1] between '1' and '5'
            then vin[9] <> vin_check_digit(vin) else false end
    from chosen_jobs
    union all
    select 'code_not_standard', 'faults', not standard_code(code) from faults where $shop is null or shop = $shop
    union all
    select 'ended_before_started', 'calibrations', coalesce(ended_at < started_at, false)
    from calibrations where $shop is null or shop = $shop
    union all
    select 'ended_before_started', 'road_tests', coalesce(ended_at < started_at, false)
    from road_tests where $shop is null or shop = $shop
    union all select 'date_alone', 'jobs', date_only is not null from chosen_jobs
    union all
    select 'date_alone', 'calibrations', date_only is not null from calibrations where $shop is null or shop = $shop
    union all select 'date_alone', 'scans', date_only is not null from scans where $shop is null or shop = $shop
    union all select 'after_as_of', 'jobs', opened_at > as_of from chosen_jobs cross join asked
    union all
    select 'unattached', 'glass', jobs.shop is null
    from glass left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'unattached', 'calibrations', jobs.shop is null
    from calibrations left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'unattached', 'scans', jobs.shop is null
    from scans left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'unattached', 'road_tests', jobs.shop is null
    from road_tests left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'unattached', 'documents', jobs.shop is null
    from documents left join jobs using (shop, job_no) where $shop is null or shop = $shop
    union all
    select 'unattached', 'faults', jobs.shop is null or scans.shop is null
    from faults left join jobs using (shop, job_no) left join scans using (shop, job_no, scan_no)
    where $shop is null or shop = $shop
    union all
    select 'unattached', 'measurements',
        jobs.shop is null or (reading.system is not null and attempt.shop is null)
    from measurements as reading
    left join jobs using (shop, job_no)
    left join calibrations as attempt
        on attempt.shop = reading.shop and attempt.job_no = reading.job_no and attempt.system = reading.system
        and attempt.position is not distinct from reading.position and attempt.attempt_no = reading.attempt_no
    where $shop is null or reading.shop = $shop
)
select mark, kind, count(*) filter (hit) as count, count(*) as n
from marked
group by mark, kind
having count > 0
order by mark, kind
