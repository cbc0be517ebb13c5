package history

import (
	"context"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// An Exported says what an export wrote.
type Exported struct {
	Tables  int
	Records int64 // those that stand
}

// Export writes the whole history as Parquet into an empty folder and reads it back: kinds of record as a folder each, by
// shop and month, all else as one file a table, named after it. Restore makes the same history of it.
func (h *History) Export(ctx context.Context, dir string, progress func(table string, done, total int64)) (Exported, error) {
	tables, err := todaysTables(ctx)
	if err != nil {
		return Exported{}, err
	}
	var done Exported
	for _, name := range slices.Sorted(maps.Keys(tables)) {
		progress(strings.TrimPrefix(name, "main."), int64(done.Tables), int64(len(tables)))
		rows, err := h.exportTable(ctx, tables[name], dir)
		if err != nil {
			return Exported{}, fmt.Errorf("write %s: %w", name, err)
		}
		if tables[name].kind() != nil {
			done.Records += rows
		}
		done.Tables++
	}
	return done, nil
}

// kind is the kind of record that the table holds; nil where it holds replaced ones, or something else.
func (t table) kind() *layout.Kind {
	if t.schema != "main" {
		return nil
	}
	return layout.KindNamed(t.name)
}

// file is the table's file in an export, or the folder of its files.
func (t table) file() string {
	if t.kind() != nil {
		return t.name
	}
	return strings.TrimPrefix(t.whole(), "main.") + ".parquet"
}

// exportTable writes one table and compares what it reads back.
func (h *History) exportTable(ctx context.Context, t table, dir string) (int64, error) {
	how := "format parquet"
	if t.kind() != nil {
		how += ", partition_by (shop, month), write_partition_columns true, filename_pattern '" + t.name + "_{i}'"
	}
	was, err := h.sumOf(ctx, t, t.whole())
	if err != nil || was.Rows == 0 && t.kind() != nil { // of no rows nothing is written by shop and month
		return 0, err
	}
	// The engine takes no parameter for the file that it copies to.
	if err := h.run(ctx, "export", "copy ("+t.exported()+") to "+literal(filepath.Join(dir, t.file()))+" ("+how+")"); err != nil {
		return 0, err
	}
	is, err := h.sumOf(ctx, t, parquetOf(dir, t))
	if err != nil {
		return 0, err
	}
	if was != is {
		return 0, fmt.Errorf("what was written is not what is read back: %d rows, sum %s, in place of %d, sum %s",
			is.Rows, is.Digest, was.Rows, was.Digest)
	}
	return was.Rows, nil
}

// exported is the select of a table's rows: a record also with its number within the table, and the month of its job, or,
// where it has none, its own.
func (t table) exported() string {
	kind := t.kind()
	names := make([]string, 0, len(t.columns))
	for _, name := range t.names() {
		if name == t.numbered() {
			names = append(names, "case when not coalesce(number_given, false) then record."+name+" end as "+name,
				"case when number_given then record."+name+" end as "+givenNumber)
			continue
		}
		names = append(names, "record."+name)
	}
	records := "select " + strings.Join(names, ", ") + ", record.rowid as row"
	switch {
	case t.name == "history_schema":
		return fmt.Sprintf("select %d as version, null::varchar as views_digest", schemaVersion())
	case kind == nil:
		return records + " from " + t.whole() + " as record"
	case kind.Column("job_no") == nil:
		return records + ", strftime(" + firstMoment(kind) + ", '%Y-%m') as month from " + t.whole() + " as record"
	}
	return records + ", coalesce(strftime(job.opened_at, '%Y-%m'), 'none') as month from " + t.whole() + " as record " +
		"left join (select shop, job_no, min(opened_at) as opened_at from main.jobs group by all) as job " +
		"on job.shop = record.shop and job.job_no = record.job_no"
}

// givenNumber is the column of an export that holds the number that an import gave to a record; the record's own column is
// empty there, as it was in the source.
const givenNumber = "given_number"

// numbered is the column of a kind's number, where the import may have given it; empty for other tables.
func (t table) numbered() string {
	if kind := t.kind(); kind != nil && kind.Numbering() != nil && kind.Numbering().Owner == "" {
		return kind.Numbering().Number
	}
	return ""
}

// firstMoment is the moment by which a record without a job has its month.
func firstMoment(kind *layout.Kind) string {
	for _, c := range kind.Columns {
		if c.Required && c.IsMoment() {
			return c.Name
		}
	}
	return "null"
}

// parquetOf is the relation of a table's rows in the folder of an export.
func parquetOf(dir string, t table) string {
	name := filepath.Join(dir, t.file())
	if t.kind() != nil {
		name = filepath.Join(name, "**", "*.parquet")
	}
	return "read_parquet(" + literal(name) + ", hive_partitioning = false, union_by_name = true)"
}

type rowsSum struct {
	Rows   int64
	Digest string
}

// sumOf counts rows and adds up a number over all their values: equal for equal rows in any order.
func (h *History) sumOf(ctx context.Context, t table, relation string) (rowsSum, error) {
	values := []string{"0"}
	for _, name := range t.names() {
		switch {
		case t.name == "history_schema": // an export is of today's version
		case name == t.numbered() && relation != t.whole():
			values = append(values, "coalesce("+name+", "+givenNumber+")::integer")
		case strings.HasPrefix(t.columns[name].Type, "ENUM"):
			values = append(values, name+"::varchar") // a word in the file
		default:
			values = append(values, name)
		}
	}
	sums, err := SelectStatement[rowsSum](ctx, h, Statement{"export of " + t.name, "select count(*) as rows, coalesce(sum(hash(" +
		strings.Join(values, ", ") + ")::hugeint), 0)::varchar as digest from " + relation}, nil)
	if err != nil {
		return rowsSum{}, err
	}
	return sums[0], nil
}

// literal makes a text constant of SQL.
func literal(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }
