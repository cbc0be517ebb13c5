package intake

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/layout"
)

// Kinds and the tables of the history say the same: the columns in their order, and the words of each.
func TestKindsAgreeWithTheTables(t *testing.T) {
	h := newHistory(t)
	for i := range layout.Kinds {
		kind := &layout.Kinds[i]
		want := strings.Join(slices.Concat(kind.StoredColumns(), kind.NamingColumns(), []string{"from_file"}), " ")
		got := one(t, h, "select string_agg(column_name, ' ' order by column_index) from duckdb_columns() "+
			"where schema_name = 'main' and table_name = "+quoted(kind.Name))
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", kind.Name, diff)
		}
		for _, column := range kind.Columns {
			if column.Type != layout.Word {
				continue
			}
			words := slices.Sorted(slices.Values(column.Words))
			enum := one(t, h, "select array_to_string(enum_range(null::"+column.Enum+"), ' ')")
			if diff := cmp.Diff(strings.Join(words, " "), enum); diff != "" {
				t.Errorf("%s.%s: %s", kind.Name, column.Name, diff)
			}
		}
	}
}
