-- What the requirement policy asks of each closed calibrated job.
--
-- One row: one job, one thing asked for, and one system where the rule is about a system.
-- Columns:
--   shop     the shop's identifier
--   job_no   its repair-order number
--   what     document | scan | road_test | measurement | equipment_verified | procedure_named | sequence | time_limit
--   subject  which document, scan, quantity, order or limit
--   system   system_word; null where the whole job is meant
--   amount   of documents the largest number, of limits the shortest time, h, that any rule asks for
--   job_id   as in known_jobs
-- Source: definitions, Evidence. Open jobs are not due yet.
with
job_systems as (
    select distinct job_id, system
    from tasks
    where exists (select 1 from required_evidence)            -- without a policy nothing need be looked at
),
asked_for as (
    select
        visit.job_id, visit.shop, visit.job_no, rule.what, rule.subject, rule.amount,
        -- documents and scans are a job's, whichever system the rule is for
        case when rule.what in ('measurement', 'equipment_verified', 'procedure_named') then rule.system end as system
    from visits as visit
    join job_systems using (job_id)
    join required_evidence as rule
        on (rule.insurer is null or lower(rule.insurer) = lower(visit.insurer))
        and (rule.system is null or rule.system = job_systems.system)
        and (rule.reason is null or rule.reason = visit.reason)
        and (rule.source is null or rule.source = visit.windshield_source)
    where visit.closed_at is not null
)
select
    shop, job_no, what, subject, system,
    case when what = 'time_limit' then min(amount) else max(amount) end as amount,
    job_id
from asked_for
group by job_id, shop, job_no, what, subject, system
