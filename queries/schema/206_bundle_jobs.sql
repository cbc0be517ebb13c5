-- The jobs that an audit looks at.
--
-- One row: one job. All known jobs in a session that set no scope.
-- Columns:
--   shop     the shop's identifier
--   job_no   its repair-order number
--   insurer  in lower case; null where the job has none
--   job_id   as in known_jobs
-- The scope is JSON in the session's variable audit_scope (measures/audit_scope): insurer and shop exactly, the first
-- without regard to case, and bounds of opened_at, which are inside.
-- Source: experience, The audit bundle.
with
scope as (
    select from_json(
        coalesce(getvariable('audit_scope')::varchar, '{}'),
        '{"insurer": "VARCHAR", "shop": "VARCHAR", "from": "TIMESTAMP", "to": "TIMESTAMP"}'
    ) as wanted
)
select job.shop, job.job_no, lower(job.insurer) as insurer, job.job_id
from known_jobs as job
cross join scope
where (wanted.insurer is null or lower(job.insurer) = lower(wanted.insurer))
    and (wanted.shop is null or job.shop = wanted.shop)
    and (wanted."from" is null or job.opened_at >= wanted."from")
    and (wanted."to" is null or job.opened_at <= wanted."to")
