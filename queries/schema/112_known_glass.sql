-- Panes of known jobs that were fitted by the moment asked for, or at a time that is not recorded.
--
-- One row: one pane.
-- Columns:
--   shop            the shop's identifier
--   job_no          its repair-order number
--   position        pane_word
--   source          glass_source_word
--   brand           as stored
--   part_no         as stored
--   supplier        as stored
--   bracket         bracket_word
--   installed_at    adhesive bead closed
--   installed_on_date  installed_at was a date alone
--   drive_away_min  the adhesive maker's safe drive-away time, minutes
--   installer       who fitted it
--   from_file       line of import_files
--   job_id          as in known_jobs
-- Source: definitions, As-of and Attached.
select
    shop, job_no, position, source, brand, part_no, supplier, bracket, installed_at,
    on_date(date_only, 'installed_at') as installed_on_date,
    drive_away_min, installer, glass.from_file, job_id
from glass
join known_jobs using (shop, job_no)
cross join asked
where installed_at is null or installed_at <= as_of
