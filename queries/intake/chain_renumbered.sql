-- Close the chain of numbers around an import that is undone: what a later import took from a record is then the number
-- that it had before.
--
-- Parameters:
--   $import  the import that is undone
update renumbered set old_number = undone.old_number
from renumbered as undone
where undone.import = $import and renumbered.import > $import and renumbered.kind = undone.kind
    and renumbered.shop = undone.shop and renumbered.job_no = undone.job_no
    and renumbered.system is not distinct from undone.system
    and renumbered.position is not distinct from undone.position
    and renumbered.known_as = undone.known_as and renumbered.old_number = undone.new_number
