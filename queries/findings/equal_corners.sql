-- Sets of readings with four ride heights that are all the same.
--
-- One row: one set.
-- Columns:
--   shop        the shop's identifier
--   job_no      its repair-order number
--   system      system_word; null for the whole job
--   position    position_word
--   attempt_no  of the attempt; null for the whole job
--   at          start of the attempt, else the job's opening
--   technician  of the attempt, else of the job
--   detail      the height
-- Finding:
--   name      Four equal ride heights
--   means     Four corners are hardly ever equal to the millimetre: were they measured?
--   rule      A set of readings whose four ride heights are all on record and equal; one a set.
--   page      evidence 100
--   severity  medium
--   identity  keys
-- Source: definitions, Evidence. That ride heights differ from corner to corner is common practice, no source.
select
    heights.shop, heights.job_no, heights.system, heights.position, heights.attempt_no, heights.taken_at as at,
    coalesce(heights.technician, job.technician) as technician,
    'all four ride heights ' || heights.lf || ' mm' as detail
from ride_heights as heights
join known_jobs as job using (job_id)
where heights.lf = heights.rf and heights.lf = heights.lr and heights.lf = heights.rr
