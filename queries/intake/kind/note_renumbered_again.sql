-- Note the new number of a record of which the same import has taken one before.
update renumbered as noted set new_number = displaced.number
from displaced
where noted.kind = '{{.Table}}' and {{same "noted" "displaced" .Task}}
    and noted.known_as = displaced.known_as and noted.import = displaced.import and noted.new_number = displaced.old_number
