-- Changes seen in the records that nobody has named as an action: a shop's first use of another software version or
-- supplier of windshields.
--
-- One row: one shop and version or supplier, the latest first use first.
-- Columns:
--   shop          the shop's identifier
--   subject_kind  software_version | supplier
--   subject       the version, or the supplier in its commonest spelling
--   first_seen    the first attempt with the version, or the opening of the first job with the supplier
--   tasks         tasks since then with that version, or front-camera tasks with that supplier
--   before        what most tasks of the shop in the 90 days before had
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only those first seen at or after this moment; null for all
--   $to    only those first seen at or before this moment; null for all
-- Source: experience, Commands. What a shop had in its first 90 days on record is no change.
with
used as (
    select shop, 'software_version' as subject_kind, software_version as subject, started_at as at
    from described_tasks
    where software_version is not null
    union all
    select shop, 'supplier', supplier, started_at
    from described_tasks
    where supplier is not null and system = 'front_camera'
),
firsts as (
    select shop, subject_kind, subject, min(at) as first_seen, count(*) as tasks
    from used
    group by shop, subject_kind, subject
),
changes as (
    select *
    from firsts
    qualify first_seen >= min(first_seen) over (partition by shop, subject_kind) + to_days(90)
),
before as (
    select changes.shop, changes.subject_kind, changes.subject, used.subject as before, count(*) as tasks
    from changes
    join used
        on used.shop = changes.shop and used.subject_kind = changes.subject_kind
        and used.at < changes.first_seen and used.at >= changes.first_seen - to_days(90)
    group by changes.shop, changes.subject_kind, changes.subject, used.subject
    qualify row_number() over (
        partition by changes.shop, changes.subject_kind, changes.subject order by count(*) desc, used.subject
    ) = 1
),
named as (
    select distinct shop, subject_kind::varchar as subject_kind, lower(subject) as subject
    from actions
    cross join asked
    where taken_at <= as_of
)
select changes.shop, changes.subject_kind, changes.subject, first_seen, changes.tasks, before.before
from changes
left join before using (shop, subject_kind, subject)
left join named
    on named.shop = changes.shop and named.subject_kind = changes.subject_kind and named.subject = lower(changes.subject)
where named.shop is null
    and ($shop is null or changes.shop = $shop)
    and ($from is null or first_seen >= $from::timestamp)
    and ($to is null or first_seen <= $to::timestamp)
order by first_seen desc, changes.shop, changes.subject_kind, changes.subject
