package audit

import (
	"cmp"
	"context"
	"database/sql"
	"fmt"
	"strings"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/history"
	"plumbline/queries"
)

// A table is one kind of row in the bundle: one CSV file, and one sheet of the workbook or more.
type table struct {
	name  string // of the file; the sheet's has a space for each underscore
	query string
	kind  string // of record; empty where the rows are none
	keep  int    // columns from the left that are shown; 0 for all
}

// tables are written in this order, that of recordTables.
var tables = []table{
	{name: "jobs", query: "measures/audit_jobs", kind: "jobs"},
	{name: "attempts", query: "measures/audit_attempts", kind: "calibrations"},
	{name: "measurements", query: "measures/audit_measurements", kind: "measurements"},
	{name: "scans", query: "measures/audit_scans", kind: "scans"},
	{name: "faults", query: "measures/audit_faults", kind: "faults"},
	{name: "glass", query: "measures/audit_glass", kind: "glass"},
	{name: "road_tests", query: "measures/audit_road_tests", kind: "road_tests"},
	{name: "documents", query: "measures/audit_documents", kind: "documents"},
	{name: "findings", query: "measures/audit_findings"},
	{name: "missing", query: "measures/audit_missing", keep: 6},
}

// describe gives the table's columns: those of its query, and what the record layout has beyond them.
func (t table) describe() []record.Column {
	columns := t.queried()
	for _, c := range t.beyond() {
		columns = append(columns, record.Column{Name: c.Name, Meaning: cmp.Or(c.Meaning, "as recorded")})
	}
	return t.shown(columns)
}

// queried reads the columns off the head of the table's query: what the definitions sheet prints cannot differ from what
// the query promises.
func (t table) queried() []record.Column {
	text, err := queries.SQL(t.query)
	if err != nil {
		panic(err) // the file is embedded
	}
	var columns []record.Column
	for _, entry := range queries.HeaderOf(text).Entries("Columns") {
		columns = append(columns, record.Column{Name: entry.Name, Meaning: entry.Text})
	}
	return columns
}

func (t table) shown(columns []record.Column) []record.Column {
	if t.keep > 0 {
		columns = columns[:t.keep]
	}
	return columns
}

// each runs the table's query and hands over row by row: nil, string, int64, float64 or time.Time a column.
func (t table) each(ctx context.Context, h *history.History, take func(row []any) error) error {
	text, err := t.statement()
	if err != nil {
		return err
	}
	rows, err := h.QueryStatement(ctx, history.Statement{Name: t.query, SQL: text}, nil)
	if err != nil {
		return err
	}
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		return fmt.Errorf("%s: %w", t.name, err)
	}
	for rows.Next() {
		row, err := scan(rows, len(columns))
		if err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
		if err := take(row); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
	}
	if err := rows.Err(); err != nil {
		return fmt.Errorf("%s: %w", t.name, err)
	}
	return nil
}

func scan(rows *sql.Rows, n int) ([]any, error) {
	row, places := make([]any, n), make([]any, n)
	for i := range row {
		places[i] = &row[i]
	}
	if err := rows.Scan(places...); err != nil {
		return nil, err
	}
	for i, value := range row {
		switch v := value.(type) {
		case int32:
			row[i] = int64(v)
		case string:
			row[i] = oneLineEnd(v)
		}
	}
	return row, nil
}

// oneLineEnd makes every line end within a text a line feed: CSV readers do so too, and a hash must not depend on it.
func oneLineEnd(text string) string {
	if !strings.Contains(text, "\r") {
		return text
	}
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
}
