-- Remember which numbers and names the rows of the file were given, for ever: no other record gets them.
insert into given_numbers
    (kind, {{list "" .Task}}, number, known_as, content)
select '{{.Table}}', {{list "checked" .Task}}, named.number, named.known_as, {{digest "checked"}}
from checked
join fates on fates.row = checked.row
join named on named.row = checked.row
left join given_numbers as known
    on known.kind = '{{.Table}}' and {{same "known" "checked" .Task}}
    and known.number = named.number and known.content = {{digest "checked"}}
where fate in ('added', 'updated') and named.number_given and known.kind is null
