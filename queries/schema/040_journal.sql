-- What was imported, from which file, with what result; rows set aside; people's decisions.
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
    rejected bigint not null
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
comment on table imports is 'one run of the import command';
comment on table import_files is 'one kind of record in one file of an import, with its balance of rows';
comment on table rejects is 'one row of a file that was set aside, kept whole';
comment on table decisions is 'one decision of a person on a finding; the latest counts';
