-- All findings as one number, to compare two ways of working them out.
--
-- One row.
-- Columns:
--   findings  how many
--   decided   of which a person has decided on
--   digest    a sum over every value of each of them, in hexadecimal digits
select
    count(*) as findings, count(decision) as decided,
    to_hex((coalesce(sum(hash(row::varchar)::hugeint), 0) % 18446744073709551616)::ubigint) as digest
from findings as row
