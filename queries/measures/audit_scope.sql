-- Fix the jobs that an audit looks at.
--
-- Parameters:
--   $scope  JSON with insurer, shop, from and to as bundle_jobs reads it; null for all jobs
set variable audit_scope = $scope
