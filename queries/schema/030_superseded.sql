-- Rows that a later import has replaced, one table a kind, readable for ever.
--
-- The columns are those of the kind's table, and
--   replaced_by  the import whose row stands in its place
create schema superseded;
create table superseded.jobs as select *, null::integer as replaced_by from jobs limit 0;
create table superseded.glass as select *, null::integer as replaced_by from glass limit 0;
create table superseded.calibrations as select *, null::integer as replaced_by from calibrations limit 0;
create table superseded.measurements as select *, null::integer as replaced_by from measurements limit 0;
create table superseded.scans as select *, null::integer as replaced_by from scans limit 0;
create table superseded.faults as select *, null::integer as replaced_by from faults limit 0;
create table superseded.road_tests as select *, null::integer as replaced_by from road_tests limit 0;
create table superseded.documents as select *, null::integer as replaced_by from documents limit 0;
create table superseded.equipment_checks as select *, null::integer as replaced_by from equipment_checks limit 0;
create table superseded.actions as select *, null::integer as replaced_by from actions limit 0;
