-- Fix whether missing calibrations are judged on each insurer's own jobs alone, as in its bundle.
--
-- Parameters:
--   $apart  true for a bundle's findings; null for the whole history's
set variable judged_apart = $apart
