-- Panes fitted in the jobs asked for.
--
-- One row: one pane.
-- Columns:
--   shop               the shop's identifier
--   job_no             its repair-order number
--   position           pane_word
--   source             glass_source_word
--   brand              as stored
--   part_no            as stored
--   supplier           as stored
--   bracket            bracket_word
--   installed_at       adhesive bead closed
--   installed_on_date  installed_at was a date alone
--   drive_away_min     the adhesive maker's safe drive-away time, minutes
--   installer          who fitted it
-- Parameters:
--   $jobs  shop and job_no joined by chr(31), jobs joined by chr(30)
with
named as (
    select distinct split_part(name, chr(31), 1) as shop, split_part(name, chr(31), 2) as job_no
    from (select unnest(string_split($jobs, chr(30))) as name)
)
select
    shop, job_no, position, source, brand, part_no, supplier, bracket, installed_at, installed_on_date,
    drive_away_min, installer
from known_glass
join named using (shop, job_no)
order by shop, job_no, position
