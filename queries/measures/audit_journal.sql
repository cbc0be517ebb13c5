-- Imported files that gave rows to the bundle.
--
-- One row: one kind of record in one file of an import.
-- Columns:
--   import          number of the import
--   imported_at     when
--   file            the file's name as it was given
--   sheet           of a workbook
--   kind            kind of record
--   sha256          of the whole file
--   encoding        as it was read
--   profile         the mapping profile; empty for the record layout
--   rows_in_bundle  its rows in this bundle
-- Source: experience, The audit bundle. How many rows a file held in all is not told: they may be anyone's.
with
mine as materialized (
    select job_id from bundle_jobs
),
used as (
    select from_file from known_jobs join mine using (job_id)
    union all select from_file from known_glass join mine using (job_id)
    union all select from_file from attempts join mine using (job_id)
    union all select from_file from measured join mine using (job_id)
    union all select from_file from known_scans join mine using (job_id)
    union all select from_file from known_faults join mine using (job_id)
    union all select from_file from known_road_tests join mine using (job_id)
    union all select from_file from known_documents join mine using (job_id)
),
counted as (
    select from_file, count(*) as rows_in_bundle from used group by from_file
)
select
    import_files.import, imports.at as imported_at, import_files.file, import_files.sheet, import_files.kind,
    import_files.sha256, import_files.encoding, import_files.profile, counted.rows_in_bundle
from counted
join import_files using (from_file)
join imports on imports.import = import_files.import
order by import_files.import, counted.from_file
