-- Work out whose the rows are, as far as their keys go.
update checked set of_record = {{ofRecord "checked"}}
