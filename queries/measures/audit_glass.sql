-- Panes fitted in the bundle's jobs.
--
-- One row: one pane.
-- Columns:
--   shop            the shop's identifier
--   job_no          its repair-order number
--   position        which pane
--   source          oem | oee | aftermarket | recycled | original | unknown
--   brand           as stored
--   part_no         as stored
--   supplier        as stored
--   bracket         how the camera bracket came: integral | transferred | new_bonded
--   installed_at    adhesive bead closed
--   drive_away_min  the adhesive maker's safe drive-away time, minutes
--   installer       who fitted it
--   date_only       names of the timestamps that were given as a date alone
select
    shop, job_no, position, source, brand, part_no, supplier, bracket, installed_at, drive_away_min, installer,
    case when installed_on_date then 'installed_at' end as date_only
from known_glass
join (select job_id from bundle_jobs) as mine using (job_id)
order by shop, job_no, position
