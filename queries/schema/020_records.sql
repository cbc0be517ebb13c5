-- The ten kinds of record, one table each, with the columns of the record layout.
--
-- Besides the layout's own columns every table has
--   date_only  names of the timestamps that were given as a date alone, separated by a space; null where none was
--   from_file  the line of import_files that the row came from
-- Records that their source does not number, and what belongs to them, have
--   known_as      the moment by which the record was first known, and its place among those of that moment; null where a
--                 number was read first. With a measurement or fault: the record that it came in one row with
--   number_given  true where the import gave the number; null where it was read
-- Keys are kept unique by the import, which is the only writer.
-- Source: record layout.
create table jobs (
    shop varchar not null, job_no varchar not null, vin varchar, model_year integer, make varchar, model varchar,
    odometer_km double, opened_at timestamp not null, closed_at timestamp, reason reason_word not null,
    complaint varchar, insurer varchar, claim_no varchar, comeback_of varchar, technician varchar,
    date_only varchar, from_file integer not null
);
create table glass (
    shop varchar not null, job_no varchar not null, position pane_word not null, source glass_source_word not null,
    brand varchar, part_no varchar, supplier varchar, bracket bracket_word, installed_at timestamp,
    drive_away_min double, installer varchar,
    date_only varchar, from_file integer not null
);
create table calibrations (
    shop varchar not null, job_no varchar not null, system system_word not null, position position_word,
    attempt_no integer not null, method method_word, started_at timestamp not null, ended_at timestamp,
    outcome attempt_outcome_word not null, failure_code varchar, failure_text varchar, technician varchar, bay varchar,
    equipment varchar, target varchar, software_version varchar, procedure varchar, provider provider_word,
    date_only varchar, known_as varchar, number_given boolean, from_file integer not null
);
create table measurements (
    shop varchar not null, job_no varchar not null, system system_word, position position_word, attempt_no integer,
    started_at timestamp, quantity quantity_word not null, value double not null, unit unit_word not null, spec_low double, spec_high double,
    value_written varchar not null, unit_written unit_word not null,
    date_only varchar, known_as varchar, from_file integer not null
);
create table scans (
    shop varchar not null, job_no varchar not null, scan_no integer not null, stage stage_word not null,
    scanned_at timestamp not null, modules_polled integer, modules_responded integer, technician varchar,
    date_only varchar, known_as varchar, number_given boolean, from_file integer not null
);
create table faults (
    shop varchar not null, job_no varchar not null, scan_no integer, stage stage_word, scanned_at timestamp,
    module varchar not null, code varchar not null, status fault_status_word not null, system system_word, description varchar,
    date_only varchar, known_as varchar, from_file integer not null
);
create table road_tests (
    shop varchar not null, job_no varchar not null, test_no integer not null, started_at timestamp not null,
    ended_at timestamp, distance_km double, outcome test_outcome_word not null, technician varchar, note varchar,
    date_only varchar, known_as varchar, number_given boolean, from_file integer not null
);
create table documents (
    shop varchar not null, job_no varchar not null, kind document_word not null, file_name varchar not null,
    sha256 varchar, added_at timestamp,
    date_only varchar, from_file integer not null
);
create table equipment_checks (
    shop varchar not null, equipment varchar not null, checked_at timestamp not null, outcome test_outcome_word not null,
    due_at timestamp, note varchar,
    date_only varchar, from_file integer not null
);
create table actions (
    shop varchar not null, subject_kind subject_word not null, subject varchar, taken_at timestamp not null,
    what varchar not null, by varchar,
    date_only varchar, from_file integer not null
);

comment on table jobs is 'one visit of one vehicle; key: shop, job_no';
comment on table glass is 'one pane fitted in a job; key: shop, job_no, position';
comment on table calibrations is 'one attempt on one system; key: shop, job_no, system, position, attempt_no';
comment on table measurements is
    'one measured quantity, in the quantity''s own unit; key: shop, job_no, system, position, attempt_no or started_at, quantity';
comment on table scans is 'one reading of the vehicle''s modules; key: shop, job_no, scan_no';
comment on table faults is 'one trouble code read by a scan; key: shop, job_no, scan_no or stage and scanned_at, module, code';
comment on table road_tests is 'one road test; key: shop, job_no, test_no';
comment on table documents is 'one document of a job; key: shop, job_no, kind, file_name';
comment on table equipment_checks is
    'one verification of a stand, target, level or other tool; key: shop, equipment, checked_at';
comment on table actions is 'something done about quality; key: shop, subject_kind, subject, taken_at';
