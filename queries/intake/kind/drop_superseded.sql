-- Take the records out that rows of the file replace. They are kept as superseded by then.
delete from {{.Table}} where rowid in (select old_row from fates where fate = 'updated')
