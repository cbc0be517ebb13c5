-- Fix the requirement policy that missing documents and completeness are judged by.
--
-- Parameters:
--   $rules  JSON array of the rules as required_evidence reads them; null for no policy
set variable policy_rules = $rules
