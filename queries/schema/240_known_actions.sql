-- What was done about quality: actions on record, and checks that passed after the check before them had failed.
--
-- One row: one action taken by the moment asked for.
-- Columns:
--   shop          the shop's identifier
--   subject_kind  technician | bay | equipment | target | supplier | software_version | shop
--   subject       as recorded; null where the subject is the shop
--   taken_at      when
--   what          what was done
--   by            who did it; null for a check
-- Source: record layout, actions. A check is of a stand where an attempt of the shop names it as its stand, else of a board
-- where one names it as its target.
with
checks as (
    select
        shop, equipment, checked_at, outcome, note,
        lag(outcome) over (partition by shop, equipment order by checked_at) as outcome_before
    from equipment_checks
    cross join asked
    where checked_at <= as_of
),
stands as (
    select distinct shop, equipment from attempts where equipment is not null
),
boards as (
    select distinct shop, target from attempts where target is not null
)
select shop, subject_kind::varchar as subject_kind, subject, taken_at, what, by
from actions
cross join asked
where taken_at <= as_of
union all
select
    checks.shop, case when stands.shop is not null then 'equipment' else 'target' end, checks.equipment, checked_at,
    'check passed after failing' || coalesce(': ' || note, ''), null
from checks
left join stands on stands.shop = checks.shop and stands.equipment = checks.equipment
left join boards on boards.shop = checks.shop and boards.target = checks.equipment
where outcome = 'passed' and outcome_before = 'failed' and (stands.shop is not null or boards.shop is not null)
