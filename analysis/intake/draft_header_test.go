package intake

import (
	"context"
	"strings"
	"testing"

	"plumbline/analysis/intake/draft"
	"plumbline/analysis/intake/source"
)

// Which line names the columns, 0 for none: a row of data above all others is no header, and what stands above a header is
// no data.
func TestDraftFindsTheHeader(t *testing.T) {
	const vin, other = "1M8GDM9AXKP042788", "1HGCM82633A004352"
	cases := []struct {
		name, content string
		want          int
	}{
		{"names", "RO,VIN,In,Odo\nA1," + vin + ",2026-03-09,100\nA2," + other + ",2026-03-10,200\n", 1},
		{"names and no row", "RO,VIN,In,Odo\n", 1},
		{"no names", "A1," + vin + ",2026-03-09,100\nA2," + other + ",2026-03-10,200\n", 0},
		{"one row alone", "A1,recheck,2026-03-09\n", 0},
		{"a day", "A1,recheck,2026-03-09\nA2,recheck,2026-03-10\n", 0},
		{"a day with its month as a word", "A1,recheck,9 Mar 2026\nA2,recheck,10 Mar 2026\n", 0},
		{"a number", "A1,north,100,recheck\nA2,north,200,recheck\n", 0},
		{"a clock", "A1,08:10,recheck\nA2,09:00,recheck\n", 0},
		{"a first row with gaps", "A1,,2026-03-09,100,x,y\nA2," + other + ",2026-03-10,200,x,y\nA3," + vin + ",2026-03-10,300,x,y\n", 0},
		{"a richer row further down", "A1," + vin + ",2026-03-09,,recheck\nA2,,2026-03-10,call back,recheck\n", 0},
		{"a title above data", "Our list,,,,\nA1," + vin + ",2026-03-09,100,recheck\nA2,,2026-03-10,200,recheck\n", 0},
		{"a title with a day above names", "Our list,2026-03-30,,,\nRO,In,Work,Odo,Make\nA1,2026-03-09,recheck,100,Orlane\nA2,2026-03-10,recheck,200,Pellor\n", 2},
		{"one odd cell in the data", "A1," + vin + ",2026-03-09,100\nA2,unknown,2026-03-10,200\nA3," + other + ",2026-03-11,300\n", 0},
		{"a year among the names", "RO,In,Odo,2026\nA1,2026-03-09,100,5\nA2,2026-03-10,200,6\n", 1},
		{"places above names", "1,2,3,4\nRO,In,Odo,Lux\n17,2026-03-09,100,5\n18,2026-03-10,200,6\n", 2},
		{"names twice below groups", "Desk,,Before,,After,\nRO,In,Date,Codes,Date,Codes\nA1,2026-03-09,2026-03-09,C1101,2026-03-10,none\nA2,2026-03-09,2026-03-09,none,2026-03-10,none\n", 2},
		{"data with more texts than the names", "RO,In,Note,Note,Note\nA1,2026-03-09,a,b,c\nA2,2026-03-10,d,e,f\n", 1},
		{"texts alone tell nothing", "RO,Work,Make\nA1,recheck,Orlane\nA2,recheck,Pellor\n", 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for _, path := range []string{write(t, "list.csv", c.content), asSheet(t, c.content)} {
				draft, err := draft.Read(context.Background(), path)
				if err != nil {
					t.Fatal(err)
				}
				if draft.HeaderRow != c.want {
					t.Errorf("header in %d, want %d\n%s", draft.HeaderRow, c.want, draft.TOML)
				}
				if isTold := strings.Contains(strings.Join(draft.Notices, "\n"), "no row names the columns"); isTold != (c.want == 0) {
					t.Errorf("told: %v", draft.Notices)
				}
				if isSet := strings.Contains(draft.TOML, "\nheader_row = 0 "); isSet != (c.want == 0) {
					t.Error(draft.TOML)
				}
			}
		})
	}
}

// The delimiter of a file without a header is the one by which most rows have one width, whatever a remark holds.
func TestLikeliestCut(t *testing.T) {
	cases := []struct {
		name, content string
		delimiter     byte
		width         int
	}{
		{"decimal commas", "a;x;1,5;2,5\nb;y;2,5;1,5\n", ';', 4},
		{"one row too long", "a;1,5;2\nb;2,5;1\nc;2,5;1;9\nd;1,5;3\n", ';', 3},
		{"a remark full of commas", "a|b\nc|d, e, f, g, h, i, j, k, l\ne|f\n", '|', 2},
		{"a title", "Our list\na\tb\tc\nd\te\tf\n", '\t', 3},
		{"one column", "a\nb\n", ',', 1},
		{"a line break in quotes, which another delimiter does not see", "\"a\";\"b\n\"\n\"c\";\"d\n\"\n", ';', 2},
	}
	for _, c := range cases {
		got, err := source.LikeliestCut(strings.NewReader(c.content), &source.Table{File: "list.csv"})
		if err != nil || got.Delimiter != c.delimiter || got.Width != c.width {
			t.Errorf("%s: %q in %d columns, want %q in %d: %v", c.name, got.Delimiter, got.Width, c.delimiter, c.width, err)
		}
	}
}
