-- What marks a database as a history: the version of its tables and of its views. One row.
create table history_schema (version integer not null, views_digest varchar);
comment on table history_schema is 'what marks this database as a plumbline history';
