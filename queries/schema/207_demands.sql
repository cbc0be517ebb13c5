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
due as (
    select job_id, system, lower(insurer) as insurer, reason, windshield_source as source
    from visits
    join (select distinct job_id, system from tasks) using (job_id)
    where closed_at is not null and exists (select 1 from required_evidence)      -- without a policy none need be looked at
),
rules as (
    select lower(insurer) as insurer, system, reason, source, what, subject, amount from required_evidence
),
asked_for as (
    select
        job_id, rule.what, rule.subject, rule.amount,
        -- documents and scans are a job's, whichever system the rule is for
        case when rule.what in ('measurement', 'equipment_verified', 'procedure_named') then rule.system end as system
    from due
    join rules as rule
        on (rule.insurer is null or rule.insurer = due.insurer)
        and (rule.system is null or rule.system = due.system)
        and (rule.reason is null or rule.reason = due.reason)
        and (rule.source is null or rule.source = due.source)
),
strictest as (
    select
        job_id, what, subject, system,
        case when what = 'time_limit' then min(amount) else max(amount) end as amount
    from asked_for
    group by job_id, what, subject, system
)
select shop, job_no, what, subject, strictest.system, amount, job_id
from strictest
join known_jobs using (job_id)
