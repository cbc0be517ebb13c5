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
    select lower(insurer) as name, count(*) as jobs, count(*) filter (insurer = $name) as exactly
    from known_jobs
    where insurer is not null
    group by lower(insurer)
)
select
    spellings.shown, named.jobs, named.exactly,
    named.name = lower($name) as folded,
    jaro_winkler_similarity(named.name, lower($name)) as likeness
from named
join spellings on spellings.field = 'insurer' and spellings.folded = named.name
order by folded desc, likeness desc, spellings.shown
