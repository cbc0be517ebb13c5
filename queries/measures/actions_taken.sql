-- What was done about quality, as people entered it.
--
-- One row: one action, the latest first.
-- Columns:
--   shop          the shop's identifier
--   subject_kind  subject_word
--   subject       null where the kind is shop
--   taken_at      when
--   what          in words
--   by            who
-- Parameters:
--   $shop  only this shop; null for all
--   $from  only actions taken at or after this moment; null for all
--   $to    only actions taken at or before this moment; null for all
-- Source: record layout, actions.
select shop, subject_kind, subject, taken_at, what, by
from actions
cross join asked
where taken_at <= as_of
    and ($shop is null or shop = $shop)
    and ($from is null or taken_at >= $from::timestamp)
    and ($to is null or taken_at <= $to::timestamp)
order by taken_at desc, shop, subject_kind, subject
