-- Records that their source does not number, and the tenth kind, actions.
--
-- What is on file by now was numbered by its source: known_as and number_given are null. By which rules its
-- files were read was not noted.
alter table calibrations add column known_as varchar;
alter table calibrations add column number_given boolean;
alter table superseded.calibrations add column known_as varchar;
alter table superseded.calibrations add column number_given boolean;
alter table scans add column known_as varchar;
alter table scans add column number_given boolean;
alter table superseded.scans add column known_as varchar;
alter table superseded.scans add column number_given boolean;
alter table road_tests add column known_as varchar;
alter table road_tests add column number_given boolean;
alter table superseded.road_tests add column known_as varchar;
alter table superseded.road_tests add column number_given boolean;
alter table measurements add column started_at timestamp;
alter table measurements add column date_only varchar;
alter table measurements add column known_as varchar;
alter table superseded.measurements add column started_at timestamp;
alter table superseded.measurements add column date_only varchar;
alter table superseded.measurements add column known_as varchar;
alter table faults alter column scan_no drop not null;
alter table faults add column stage stage_word;
alter table faults add column scanned_at timestamp;
alter table faults add column date_only varchar;
alter table faults add column known_as varchar;
alter table superseded.faults add column stage stage_word;
alter table superseded.faults add column scanned_at timestamp;
alter table superseded.faults add column date_only varchar;
alter table superseded.faults add column known_as varchar;
create type subject_word as enum (
    'bay', 'equipment', 'shop', 'software_version', 'supplier', 'target', 'technician'
);
create table actions (
    shop varchar not null, subject_kind subject_word not null, subject varchar, taken_at timestamp not null,
    what varchar not null, by varchar,
    date_only varchar, from_file integer not null
);
create table superseded.actions as select *, null::integer as replaced_by from actions limit 0;
create table given_numbers (
    kind varchar not null, shop varchar not null, job_no varchar not null, system system_word, position position_word,
    number integer not null, known_as varchar, content varchar
);
create table renumbered (
    kind varchar not null, shop varchar not null, job_no varchar not null, system system_word, position position_word,
    import integer not null, known_as varchar not null, old_number integer not null, new_number integer not null
);
alter table import_files add column rules varchar;
comment on table measurements is
    'one measured quantity, in the quantity''s own unit; key: shop, job_no, system, position, attempt_no or started_at, quantity';
comment on table faults is 'one trouble code read by a scan; key: shop, job_no, scan_no or stage and scanned_at, module, code';
comment on table actions is 'something done about quality; key: shop, subject_kind, subject, taken_at';
comment on table given_numbers is 'numbers given to records that their source does not number, also to those that are gone';
comment on table renumbered is 'one record whose given number became another''s'
