-- Remember the numbers that displaced records were given.
insert into given_numbers (kind, {{list "" .Task}}, number, known_as, content)
select '{{.Table}}', {{list "" .Task}}, number, known_as, content
from displaced
