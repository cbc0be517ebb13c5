-- Give records back the number that a row of an import had taken from them.
--
-- Parameters:
--   $import  the import that is undone
update {{.Into}} as old set {{.Number}} = noted.old_number
from renumbered as noted
where noted.kind = '{{.Table}}' and noted.import = $import and noted.known_as = old.known_as
    and {{same "noted" "old" .Task}} and noted.new_number = old.{{.Number}} and old.number_given
