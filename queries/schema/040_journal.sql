-- What was imported, from which file, with what result; rows set aside; numbers given; people's decisions.
--
-- An import is one run of the import command. It has one line in import_files for each kind that each of its files held.
create table imports (
    import integer not null,
    at timestamp not null,          -- wall clock of the machine, or of the zone that the import names
    zone varchar,                   -- the zone that offsets were converted to; null: the wall clock was kept as written
    tool_version varchar not null,
    undone_at timestamp             -- null while the import stands
);
create table import_files (
    from_file integer not null,     -- unique; the records' column of the same name points here
    import integer not null,
    file varchar not null,          -- the name as given
    sheet varchar,
    kind varchar not null,
    sha256 varchar not null,        -- of the whole file
    bytes bigint not null,
    encoding varchar,               -- as it was read; null where the format has none
    profile varchar,                -- the mapping profile's name; null for the record layout
    read bigint not null,
    added bigint not null,
    updated bigint not null,
    unchanged bigint not null,
    rejected bigint not null,
    rules varchar                   -- digest of the rules by which the file was read; null where they were not noted
);
create table rejects (
    from_file integer not null,
    line bigint not null,           -- physical line, or the sheet's row number
    column_name varchar,            -- as the source writes it; null where the whole row is at fault
    value varchar,
    reason varchar not null,
    remedy varchar,
    header varchar[] not null,      -- the source's columns …
    fields varchar[] not null       -- … and the row's fields, whole and as read
);
create table decisions (
    decision integer not null,      -- 1, 2, 3 …
    finding varchar not null,
    verdict varchar not null,       -- confirmed | dismissed | undone
    decided_by varchar not null,
    at timestamp not null,
    note varchar not null
);
create table given_numbers (        -- never taken out: what was given once is no other record's
    kind varchar not null,          -- calibrations | scans | road_tests
    shop varchar not null,
    job_no varchar not null,
    system system_word,             -- with the position: of an attempt
    position position_word,
    number integer not null,
    known_as varchar,               -- null: the highest number read in the task, noted when its record was taken back
    content varchar                 -- MD5 over what the record said, by which it gets its own number back
);
create table renumbered (
    kind varchar not null,
    shop varchar not null,
    job_no varchar not null,
    system system_word,
    position position_word,
    import integer not null,        -- whose row has the old number; undone, the record gets it back
    known_as varchar not null,
    old_number integer not null,
    new_number integer not null
);
comment on table imports is 'one run of the import command';
comment on table import_files is 'one kind of record in one file of an import, with its balance of rows';
comment on table rejects is 'one row of a file that was set aside, kept whole';
comment on table decisions is 'one decision of a person on a finding; the latest counts';
comment on table given_numbers is 'numbers given to records that their source does not number, also to those that are gone';
comment on table renumbered is 'one record whose given number became another''s';
