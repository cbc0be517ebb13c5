-- Take all records of the kind out: those of the file that was just taken into an empty table.
delete from {{.Table}}
