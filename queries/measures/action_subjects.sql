-- What a shop's actions can be about: everything of a kind that its records name.
--
-- One row: one subject.
-- Columns:
--   subject  as the records name it
-- Parameters:
--   $shop  the shop
--   $kind  subject_word
-- Source: record layout, actions.
select distinct subject
from (
    select unnest(case $kind
        when 'technician' then [technician] when 'bay' then [bay] when 'equipment' then [equipment]
        when 'target' then [target] when 'software_version' then [software_version] end) as subject
    from calibrations
    where shop = $shop
    union all
    select technician from jobs where shop = $shop and $kind = 'technician'
    union all
    select equipment from equipment_checks where shop = $shop and $kind in ('equipment', 'target')
    union all
    select supplier from glass where shop = $shop and $kind = 'supplier'
)
where subject is not null
order by subject
