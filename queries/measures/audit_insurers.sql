-- Insurers on record, those whose names are most like the one asked for first.
--
-- One row: one insurer.
-- Columns:
--   shown     its commonest spelling
--   jobs      how many jobs carry it
--   exactly   jobs that carry it just as asked for, letter by letter
--   folded    it is the one asked for, without regard to case
--   likeness  of the names in lower case, 0 to 1 (Jaro and Winkler)
-- Parameters:
--   $name  the insurer asked for
-- Source: definitions, Missing (insurers are compared without case).
with
named as (
    select visit.insurer as shown, count(*) as jobs, count(*) filter (job.insurer = $name) as exactly
    from visits as visit
    join known_jobs as job using (job_id)
    where visit.insurer is not null
    group by visit.insurer
)
select
    shown, jobs, exactly, lower(shown) = lower($name) as folded,
    jaro_winkler_similarity(lower(shown), lower($name)) as likeness
from named
order by folded desc, likeness desc, shown
