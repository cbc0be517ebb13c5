-- Keep a decision of a person on a finding.
--
-- Parameters:
--   $finding     its identifier
--   $verdict     confirmed | dismissed | undone
--   $decided_by  who
--   $at          when
--   $note        why
-- A decision that is kept already, word for word, is not kept twice.
insert into decisions by name
select
    coalesce((select max(decision) from decisions), 0) + 1 as decision,
    $finding as finding, $verdict as verdict, $decided_by as decided_by, $at::timestamp as at, $note as note
where not exists (
    select 1 from decisions
    where finding = $finding and verdict = $verdict and decided_by = $decided_by and at = $at::timestamp and note = $note
)
