-- Make room for what an import has brought or met again: files by number, and records by their rowid.
create or replace temporary table brought_files (kind varchar, from_file integer);
create or replace temporary table met_records (kind varchar, record bigint)
