-- Whether rows or records of the kind have no number of their own, so that moments count.
--
-- One row.
-- Columns:
--   by_moment  some have none
select
    exists(select 1 from checked where readable and {{.Number}} is null and {{.At}} is not null)
    {{- if not .Owner}}
    or exists(select 1 from {{.Table}} where number_given)
    {{- end}} as by_moment
