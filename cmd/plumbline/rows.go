package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"reflect"
	"strings"

	"github.com/spf13/cobra"
)

// grid is rows under named columns, whatever they are of.
type grid struct {
	columns []string
	rows    [][]any
}

// formatFlag is --format, which alone decides the shape of an answer, and --wide, by which a table takes no notice of
// the terminal.
type formatFlag struct {
	*oneOf
	wide *bool
}

func addFormat(cmd *cobra.Command) formatFlag {
	f := formatFlag{oneOf: newOneOf([]string{"table", "csv", "json"}, "table"), wide: new(bool)}
	addOneOf(cmd, f.oneOf, "format", "how to print the rows")
	cmd.Flags().BoolVar(f.wide, "wide", false, "print every column of a table, however wide the terminal is")
	return f
}

// print writes the rows to the answer's stream. No rows are an answer too: csv has its header, json an empty array,
// and a table says so beside it.
func (f formatFlag) print(a *app, g grid) error {
	switch f.word {
	case "csv":
		return g.writeCSV(a.out)
	case "json":
		return g.writeJSON(a.out)
	}
	if len(g.rows) == 0 {
		_, err := fmt.Fprintln(a.err, "nothing to show")
		return err
	}
	width := a.width
	if *f.wide {
		width = 0
	}
	return g.writeTable(a.out, a.err, width)
}

// gridOf spreads structs: a field's column is its name in snake case or the tag `col`; `col:"-"` has none.
func gridOf[Row any](rows []Row) grid {
	fields := reflect.VisibleFields(reflect.TypeFor[Row]())
	g := grid{rows: make([][]any, len(rows))}
	var shown []reflect.StructField
	for _, field := range fields {
		name, tagged := field.Tag.Lookup("col")
		if !tagged {
			name = field.Tag.Get("db")
		}
		if name == "" {
			name = snakeCase(field.Name)
		}
		if name != "-" && field.IsExported() && !field.Anonymous {
			g.columns = append(g.columns, name)
			shown = append(shown, field)
		}
	}
	for i, row := range rows {
		g.rows[i] = make([]any, len(shown))
		for j, field := range shown {
			g.rows[i][j] = reflect.ValueOf(row).FieldByIndex(field.Index).Interface()
		}
	}
	return g
}

func snakeCase(name string) string {
	var b strings.Builder
	for i, r := range name {
		if i > 0 && r >= 'A' && r <= 'Z' && (name[i-1] < 'A' || name[i-1] > 'Z') {
			b.WriteByte('_')
		}
		b.WriteRune(r)
	}
	return strings.ToLower(b.String())
}

func (g grid) writeCSV(to io.Writer) error {
	out := csv.NewWriter(to)
	if err := out.Write(g.columns); err != nil {
		return err
	}
	record := make([]string, len(g.columns))
	for _, row := range g.rows {
		for i, cell := range row {
			record[i] = csvText(cell)
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func (g grid) writeJSON(to io.Writer) error {
	objects := make([]orderedObject, len(g.rows))
	for i, row := range g.rows {
		objects[i] = orderedObject{g.columns, row}
	}
	out := json.NewEncoder(to)
	out.SetEscapeHTML(false)
	out.SetIndent("", "  ")
	return out.Encode(objects)
}
