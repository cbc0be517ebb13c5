-- Note which record had which number before an import's row took it, for the import's undoing.
insert into renumbered (kind, {{list "" .Task}}, import, known_as, old_number, new_number)
select '{{.Table}}', {{list "displaced" .Task}}, displaced.import, displaced.known_as, displaced.old_number, displaced.number
from displaced
left join renumbered as noted
    on noted.kind = '{{.Table}}' and {{same "noted" "displaced" .Task}}
    and noted.known_as = displaced.known_as and noted.import = displaced.import
where noted.kind is null
