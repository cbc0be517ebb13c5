-- Put the rows of the file in that are new or replace a record.
--
-- Parameters:
--   $from_file  the file's number
insert into {{.Table}} (
    {{- if not .ByMoment}}{{list "" .Stored}}, from_file
    {{- else if .Owner}}{{list "" .Stored}}, known_as, from_file
    {{- else}}{{list "" .Plain}}, {{.Number}}, known_as, number_given, from_file
    {{- end}})
select
    {{- if not .ByMoment}} {{list "checked" .Stored}}, $from_file
    {{- else if .Owner}} {{list "checked" .Stored}}, named.known_as, $from_file
    {{- else}} {{list "checked" .Plain}}, named.number, named.known_as, named.number_given, $from_file
    {{- end}}
from checked
join fates on fates.row = checked.row
{{- if .ByMoment}}
join named on named.row = checked.row
{{- end}}
where fate in ('added', 'updated')
order by checked.row
