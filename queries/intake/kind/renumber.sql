-- Give the displaced records their new numbers.
update {{.Table}} set {{.Number}} = displaced.number from displaced where {{.Table}}.rowid = displaced.old_row
