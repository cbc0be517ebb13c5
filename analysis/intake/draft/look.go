package draft

import (
	"context"
	"fmt"
	"os"
	"slices"
	"strings"

	"plumbline/analysis/folder"
	"plumbline/analysis/intake/profile"
	"plumbline/analysis/intake/source"
)

// This file looks at a file once from beginning to end.

// A gathering takes the rows of a file's tables for what their columns show.
type gathering struct {
	columns []*column
	values  [][]string // of each column the first that are not empty
	levels  []int      // of JSON: the level on which a column has its values; -1: not seen yet
	isLaid  bool       // the last cell of a row is its level
	rows    int64
	places  []int // of the table in hand, which of the columns its cells are
	kept    []keptRow
	cells   int // of the kept rows
}

// A keptRow is a row as it is, for what only several cells together show.
type keptRow struct {
	level  int
	cells  []string
	isLeft bool // it is no record of any kind
}

// mostCells is how much of a file is kept whole.
const mostCells = 2_000_000

// Add takes a row.
func (g *gathering) Add(_ int64, fields []string, misshapen string) error {
	level := 0
	if g.isLaid {
		fmt.Sscan(fields[len(fields)-1], &level)
		fields = fields[:len(fields)-1]
	}
	if misshapen != "" && len(fields) < len(g.places) {
		return nil
	}
	g.rows++
	row := keptRow{level: level, cells: make([]string, len(g.columns))}
	for i := range min(len(fields), len(g.places)) {
		at := g.places[i]
		if at < 0 || fields[i] == "" {
			continue
		}
		row.cells[at] = strings.TrimSpace(fields[i])
		if g.levels[at] < 0 {
			g.levels[at] = level
		}
		if g.levels[at] != level {
			continue // it is repeated from around the list
		}
		g.columns[at].add(fields[i])
		if text := strings.TrimSpace(fields[i]); text != "" && len(g.values[at]) < sampledValues {
			g.values[at] = append(g.values[at], text)
		}
	}
	if g.cells += len(row.cells); g.cells <= mostCells {
		g.kept = append(g.kept, row)
	}
	return nil
}

// table begins another table; the first names the columns.
func (g *gathering) table(t *source.Table, width int) (source.Rows, error) {
	g.isLaid = width > len(t.Header)
	g.places = nil
	for i, name := range t.Header {
		at := slices.IndexFunc(g.columns, func(c *column) bool { return name != "" && profile.SameHeader(c.name, name) })
		if len(g.columns) <= i && at < 0 || len(g.columns) == i {
			at = len(g.columns)
			g.columns, g.values, g.levels = append(g.columns, newColumn(name)), append(g.values, nil), append(g.levels, -1)
		}
		if at >= 0 && slices.Contains(g.places, at) {
			at = i // a name that stands there twice
		}
		g.places = append(g.places, at)
	}
	return g, nil
}

// look reads the file and settles which rows name the columns and which sheets are read.
func (d *drafting) look(ctx context.Context, file source.Input) error {
	dir, err := os.MkdirTemp("", "plumbline-draft-")
	if err != nil {
		return err
	}
	defer folder.Remove(dir)
	if err := d.headOf(dir, file); err != nil {
		return err
	}
	g := &gathering{}
	base := d.header
	reader := source.Reader{Dir: dir, Lines: d.lines(), Sheet: d.sheet, Alike: d.alike, Decimal: ".", Members: d.said.members(), Into: g.table,
		Notice: func(format string, values ...any) {
			if format == source.HiddenRows { // what else is told was told by the look at the head
				d.note(fmt.Sprintf(format, values...))
			}
		},
		Fits: func(header []string) bool { return len(base) == 0 || alikeHeaders(base, header) }}
	if file.Form == "json" || file.Form == "ndjson" {
		reader.Fits = nil
	}
	table := source.Table{File: file.Name, Bytes: file.Bytes}
	tables, err := reader.Open(file, &table)
	if err != nil {
		return err
	}
	if len(tables) > 0 && len(tables[0].Levels) > 0 {
		d.levels, d.isNested = tables[0].Levels, true
		d.nest(tables[0].Table.Header)
	}
	for len(g.columns) < len(d.header) {
		g.columns, g.values, g.levels = append(g.columns, newColumn("")), append(g.values, nil), append(g.levels, 0)
	}
	d.columns, d.values, d.rows, d.levelOf, d.kept = g.columns[:len(d.header)], g.values[:len(d.header)], g.rows, g.levels, g.kept
	return ctx.Err()
}

// nest takes the paths of a JSON file for its columns; what stands before a path's last name is its group.
func (d *drafting) nest(paths []string) {
	d.header = paths
	d.names, d.groups = make([]string, len(paths)), make([]string, len(paths))
	for i, path := range paths {
		d.names[i] = path
		if at := strings.LastIndexByte(path, '.'); at >= 0 {
			d.names[i], d.groups[i] = path[at+1:], path[:at]
			if next := strings.LastIndexByte(d.groups[i], '.'); next >= 0 {
				d.groups[i] = d.groups[i][next+1:]
			}
		}
	}
}

// note keeps a remark once.
func (d *drafting) note(text string) {
	if !slices.Contains(d.Notices, text) {
		d.Notices = append(d.Notices, text)
	}
}

// lines are those that name the columns.
func (s *sample) lines() []int {
	switch {
	case len(s.headerRows) > 0:
		return s.headerRows
	case s.headerRow > 0:
		return []int{s.headerRow}
	}
	return nil
}

// alikeHeaders tells whether two tables have four fifths of their names in common.
func alikeHeaders(one, other []string) bool {
	common, all := 0, 0
	for _, name := range one {
		if name == "" {
			continue
		}
		all++
		if slices.ContainsFunc(other, func(known string) bool { return profile.SameHeader(name, known) }) {
			common++
		}
	}
	named := len(slices.DeleteFunc(slices.Clone(other), func(name string) bool { return name == "" }))
	return 5*common >= 4*all && 5*common >= 4*named && common > 0
}
