package exhibit

// A Table is rows under described columns.
type Table struct {
	Caption string
	Columns []Column
	Rows    Rows
	All     string // the command that shows all rows, where a page cuts a long list
	Rest    string // what is left out, in a sentence
	Ordered bool   // a formula looks at other rows: not to be sorted
	Latest  bool   // a page begins with the last row

	stack  *Table // the table that holds these rows among others
	offset int    // and the row of it that is the first of these
}

// Rows are asked for one by one, so that a long list is never held twice. A row has a value a column: nil, a text, a
// number, a moment, a pointer to one of them, or a Cell.
type Rows struct {
	Len int
	At  func(i int) []any
}

// Each makes rows of a list.
func Each[Item any](list []Item, row func(Item) []any) Rows {
	return Rows{len(list), func(i int) []any { return row(list[i]) }}
}

// Given are rows that are there already.
func Given(rows ...[]any) Rows {
	return Rows{len(rows), func(i int) []any { return rows[i] }}
}

// Column finds a column by its name; -1 where the table has none.
func (t *Table) Column(name string) int {
	for i, column := range t.Columns {
		if column.Name == name {
			return i
		}
	}
	return -1
}

// Value is what row i has under a column, settled; nil where there is no such column.
func (t *Table) Value(i int, name string) any {
	column := t.Column(name)
	if column < 0 {
		return nil
	}
	return Settle(t.Rows.At(i)[column])
}

// In picks the columns that a rendering shows.
func (t *Table) In(place Place) []int {
	var shown []int
	for i, column := range t.Columns {
		if column.IsIn(place) {
			shown = append(shown, i)
		}
	}
	return shown
}

// Stack puts tables of the same columns one below the other, each row after the keys of its table. Drawings of a
// stacked table then find its rows there.
func Stack(keys []Column, tables []*Table, key func(i int) []any) *Table {
	all := &Table{Columns: keys}
	var owners []int
	for i, t := range tables {
		if i == 0 {
			all.Columns = append(all.Columns, t.Columns...)
		}
		t.stack, t.offset = all, len(owners)
		for range t.Rows.Len {
			owners = append(owners, i)
		}
	}
	all.Rows = Rows{len(owners), func(row int) []any {
		of := tables[owners[row]]
		return append(key(owners[row]), of.Rows.At(row-of.offset)...)
	}}
	return all
}

// Stacked is the table whose rows these are in a workbook, and the place of the first of them.
func (t *Table) Stacked() (*Table, int) {
	if t.stack == nil {
		return t, 0
	}
	return t.stack, t.offset
}
