-- Technicians of one shop that may be one person under two spellings.
--
-- One row: one pair of names.
-- Columns:
--   shop         the shop's identifier
--   name         the commoner name
--   other        the rarer one
--   uses         records that carry the commoner name
--   other_uses   records that carry the rarer one
--   class        same_letters (alike but for case, spaces, punctuation, accents, leading zeros) |
--                one_letter (one letter more, less or other, and seldom used)
--   other_first  when the rarer name was first used; null where none of its records has a time
--   other_last   when it was last used
-- Source: none; names that differ in a figure, such as T01 and T02, are two people.
with
used as (
    select shop, technician as name, opened_at as at from known_jobs
    union all select shop, technician, started_at from attempts
    union all select shop, technician, scanned_at from known_scans
    union all select shop, technician, started_at from known_road_tests
    union all select shop, installer, installed_at from known_glass
),
names as (
    select
        shop, name, count(*) as uses, min(at) as first_used, max(at) as last_used,
        regexp_replace(
            regexp_replace(lower(strip_accents(name)), '[^\p{L}\p{N}]', '', 'g'), '(^|[^0-9])0+([0-9])', '\1\2', 'g'
        ) as folded
    from used
    where name is not null
    group by shop, name
),
pairs as (
    select
        commoner.shop, commoner.name, rarer.name as other, commoner.uses, rarer.uses as other_uses,
        rarer.first_used as other_first, rarer.last_used as other_last,
        case
            when rarer.folded = commoner.folded then 'same_letters'
            when rarer.uses <= 5 and rarer.uses * 10 <= commoner.uses
                and length(regexp_replace(commoner.folded, '[^\p{L}]', '', 'g')) >= 4
                and regexp_replace(rarer.folded, '[^0-9]', '', 'g') = regexp_replace(commoner.folded, '[^0-9]', '', 'g')
                and levenshtein(rarer.folded, commoner.folded) = 1
            then 'one_letter'
        end as class
    from names as commoner
    join names as rarer on rarer.shop = commoner.shop
    -- the commoner name comes first; of equally common ones the first in byte order
    where (-commoner.uses, commoner.name) < (-rarer.uses, rarer.name) and commoner.folded <> ''
)
select shop, name, other, uses, other_uses, class, other_first, other_last
from pairs
where class is not null
order by shop, name, other
