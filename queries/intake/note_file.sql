-- Enter one kind of record in one file in the journal, with its balance of rows.
--
-- Parameters:
--   $from_file  its number
--   $import     the import
--   $file       the name as given
--   $sheet      of a workbook, or null
--   $kind       the kind of record
--   $sha256     of the whole file
--   $bytes      its size
--   $encoding   as it was read, or null
--   $profile    the mapping profile's name, or null
--   $read       rows read
--   $added      of these
--   $updated    of these
--   $unchanged  of these
--   $rejected   of these
--   $rules      digest of the rules by which it was read
insert into import_files (
    from_file, import, file, sheet, kind, sha256, bytes, encoding, profile, read, added, updated, unchanged, rejected, rules
) values (
    $from_file, $import, $file, $sheet, $kind, $sha256, $bytes, $encoding, $profile,
    $read, $added, $updated, $unchanged, $rejected, $rules
)
