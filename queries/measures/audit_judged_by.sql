-- Fix what missing calibrations are judged by.
--
-- Parameters:
--   $judged_by  insurer for a bundle's findings, each insurer's own jobs alone; both for these and the history's; null for
--               the history's
set variable judged_by = $judged_by
