-- Actions with the spans of time before and after them that are compared.
--
-- One row: one action, or several on one subject of which each followed within 14 days of the one before.
-- Columns:
--   action        a number for this point of view
--   shop          the shop's identifier
--   subject_kind  as in known_actions
--   subject       as first recorded
--   taken_at      of the first
--   what          of all, joined by '; '
--   by            of all, joined by '; '; null where none names anybody
--   before_from   tasks from then on are before, up to taken_at: 180 days, or the action before on that subject
--   after_from    tasks from then on are after: the last of the actions
--   after_to      up to and including this moment: 180 days, or as-of
--   next_at       and before the next action on that subject; null where there is none
--   is_over       the 180 days or the next action have come
-- Source: definitions, Before and after an action.
with
keyed as (                        -- a supplier is compared without case, as everywhere
    select
        *, case subject_kind when 'shop' then '' when 'supplier' then lower(subject) else subject end as subject_key
    from known_actions
),
stepped as (
    select
        *,
        coalesce(taken_at > lag(taken_at) over subject_actions + to_days(14), true)::integer as is_new
    from keyed
    window subject_actions as (partition by shop, subject_kind, subject_key order by taken_at, what)
),
numbered as (
    select
        *, sum(is_new) over (partition by shop, subject_kind, subject_key order by taken_at, what) as place
    from stepped
),
merged as (
    select
        shop, subject_kind, subject_key, arg_min(subject, (taken_at, what)) as subject,
        min(taken_at) as taken_at, max(taken_at) as after_from,
        string_agg(what, '; ' order by taken_at, what) as what, string_agg(by, '; ' order by taken_at, what) as by
    from numbered
    group by shop, subject_kind, subject_key, place
),
spanned as (
    select
        *,
        lag(after_from) over subject_actions as previous_at, lead(taken_at) over subject_actions as next_at
    from merged
    window subject_actions as (partition by shop, subject_kind, subject_key order by taken_at)
)
select
    row_number() over (order by taken_at, shop, subject_kind, subject_key) as action,
    shop, subject_kind, subject, taken_at, what, by,
    greatest(taken_at - to_days(180), previous_at) as before_from, after_from,
    least(after_from + to_days(180), as_of) as after_to, next_at,
    least(after_from + to_days(180), next_at) <= as_of as is_over
from spanned
cross join asked
