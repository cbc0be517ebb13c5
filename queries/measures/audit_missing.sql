-- What the bundle's closed calibrated jobs lack by the requirement policy.
--
-- One row: one job and one thing that it lacks.
-- Columns:
--   shop             the shop's identifier
--   job_no           its repair-order number
--   what             document | scan | road_test | measurement | equipment_verified | procedure_named | sequence |
--                    time_limit
--   subject          which document, scan, quantity, order or limit
--   system           the system that it is asked for; empty where the whole job is meant
--   detail           in words
--   jobs_lacking     jobs of the bundle that lack the same what and subject
--   jobs_incomplete  jobs of the bundle that lack anything
--   jobs_due         closed calibrated jobs of the bundle
-- Source: definitions, Evidence; the policy is in required_evidence, and nothing is missing without one.
with
due as materialized (
    select job_id, shop, job_no
    from visits
    semi join bundle_jobs using (job_id)
    where is_calibrated and closed_at is not null
),
wanted as materialized (
    select demands.* from demands join due using (job_id)
),
completed as materialized (
    select attempts.* from attempts join due using (job_id) where outcome = 'completed'
),
latest_checks as (                -- of each tool at each use: what was known of it then
    select used.job_id, used.system, used.tool, checks.outcome, checks.due_at, used.started_at
    from (
        select shop, job_id, system, started_at, unnest([equipment, target]) as tool from completed
    ) as used
    asof left join (
        select shop, equipment, checked_at, outcome, due_at
        from equipment_checks cross join asked where checked_at <= as_of
    ) as checks on checks.shop = used.shop and checks.equipment = used.tool and checks.checked_at <= used.started_at
    where used.tool is not null
),
measured_quantities as (
    select distinct job_id, system, quantity::varchar as quantity
    from (
        select measured.job_id, attempts.system, quantity
        from measured
        join due using (job_id)
        left join attempts using (attempt_id)
    )
),
flagged as (                      -- what findings know already
    select shop, job_no, 'document' as what, class as subject, detail from missing_document
    union all
    select shop, job_no, 'scan', class, detail from missing_scan
    union all
    select shop, job_no, 'road_test', null, detail from missing_road_test
    union all
    select shop, job_no, 'sequence', 'pre_scan_before', detail from late_pre_scan
    union all
    select
        shop, job_no, 'sequence',
        case class when 'calibration' then 'post_scan_after' else 'road_test_between' end, detail
    from stale_post_scan
),
lacking as (
    select wanted.shop, wanted.job_no, wanted.what, wanted.subject, wanted.system, flagged.detail
    from wanted
    join flagged
        on flagged.shop = wanted.shop and flagged.job_no = wanted.job_no and flagged.what = wanted.what
        and flagged.subject is not distinct from wanted.subject
    union all
    select shop, job_no, what, subject, system, 'not measured'
    from wanted
    where what = 'measurement' and not exists (
        select 1 from measured_quantities as taken
        where taken.job_id = wanted.job_id and taken.quantity = wanted.subject
            and (taken.system is null or wanted.system is null or taken.system = wanted.system)
    )
    union all
    select wanted.shop, wanted.job_no, wanted.what, wanted.subject, wanted.system,
        string_agg(distinct tool, ', ' order by tool) || ': no passed check that was good on the day'
    from wanted
    join latest_checks as checks
        on checks.job_id = wanted.job_id and (wanted.system is null or checks.system = wanted.system)
    where wanted.what = 'equipment_verified'
        and (checks.outcome is distinct from 'passed' or checks.due_at < checks.started_at)
    group by all
    union all
    select wanted.shop, wanted.job_no, wanted.what, wanted.subject, wanted.system,
        count(*) || ' completed without the maker''s procedure named'
    from wanted
    join completed
        on completed.job_id = wanted.job_id and (wanted.system is null or completed.system = wanted.system)
    where wanted.what = 'procedure_named' and completed.procedure is null
    group by all
    union all
    select wanted.shop, wanted.job_no, wanted.what, wanted.subject, wanted.system,
        round(step_hours.hours, 2) || ' h, at most ' || wanted.amount || ' asked for'
    from wanted
    join step_hours using (job_id, subject)
    where wanted.what = 'time_limit' and step_hours.hours > wanted.amount
)
select
    shop, job_no, what, subject, system, detail,
    count(distinct (shop, job_no)) over (partition by what, subject) as jobs_lacking,
    count(distinct (shop, job_no)) over () as jobs_incomplete,
    (select count(*) from due) as jobs_due
from lacking
order by shop, job_no, what, subject nulls first, system nulls first
