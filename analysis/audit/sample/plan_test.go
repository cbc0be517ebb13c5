package sample

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"plumbline/analysis/testkit"
)

// Source: testdata/aql_master_tables.txt. The code builds the tables from their rule of construction; the file is a
// transcription of the printed ones.
func TestPlansAreThoseOfTheMasterTables(t *testing.T) {
	text, err := os.ReadFile("testdata/aql_master_tables.txt")
	if err != nil {
		t.Fatal(err)
	}
	cells := 0
	for line := range strings.Lines(string(text)) {
		words := strings.Fields(line)
		switch {
		case words[0] == "#":
		case words[0] == "aql":
			if got := strings.Join(AQLs, " "); got != strings.Join(words[1:], " ") {
				t.Errorf("AQLs are %s", got)
			}
		case words[0] == "size":
			for i, size := range masters[Severity(words[1])].sizes {
				if got := letters[i:i+1] + strconv.FormatInt(size, 10); got != words[2+i] {
					t.Errorf("%s: sample size %s, printed %s", words[1], got, words[2+i])
				}
			}
		default:
			table := masters[Severity(words[0])]
			for column, want := range words[2:] {
				row, accept := table.follow(strings.Index(letters, words[1]), column)
				if got := fmt.Sprint(letters[row:row+1], accept); got != want {
					t.Errorf("%s, letter %s, AQL %s: plan %s, printed %s", words[0], words[1], AQLs[column], got, want)
				}
				cells++
			}
		}
	}
	if cells != 3*16*16 {
		t.Errorf("%d cells compared, not 768", cells)
	}
}

// Source: MIL-STD-105E (1989), tables I and II-A, in two independent transcriptions that agree in every cell (CRAN
// AQLSchemes and Planesmuestra).
func TestPlansForNormalInspection(t *testing.T) {
	rows := testkit.ReadCSV(t, "testdata/aql_normal_single.csv")
	for _, row := range rows {
		column := -1
		for i, aql := range AQLs {
			if aql == row["aql"] {
				column = i
			}
		}
		i, accept := masters[Normal].follow(strings.Index(letters, row["code"]), column)
		got := fmt.Sprint(masters[Normal].sizes[i], " ", accept, " ", accept+1)
		if want := row["n"] + " " + row["ac"] + " " + row["re"]; got != want {
			t.Errorf("letter %s, AQL %s: %s, printed %s", row["code"], row["aql"], got, want)
		}
	}
	if len(rows) != 112 {
		t.Errorf("%d plans compared, not 112", len(rows))
	}
}

// Source: MIL-STD-105E (1989), table I, in the same two transcriptions.
func TestCodeLetters(t *testing.T) {
	for _, row := range testkit.ReadCSV(t, "testdata/aql_code_letters.csv") {
		for _, bound := range []string{row["lot_min"], row["lot_max"]} {
			lot, err := strconv.ParseFloat(bound, 64)
			if err != nil {
				continue // the last row has no upper bound
			}
			for _, level := range Levels {
				plan, err := FindPlan(int64(lot), level, "1.0", Normal)
				if err != nil || plan.Letter != row[level] {
					t.Errorf("lot %s, level %s: letter %s, printed %s (%v)", bound, level, plan.Letter, row[level], err)
				}
			}
		}
	}
}

// Source: look-ups worked out from the same tables by hand; the whole lot is inspected where the
// sample would be as large.
func TestFindPlan(t *testing.T) {
	for _, c := range []struct {
		lot        int64
		level, aql string
		severity   Severity
		want       Plan
	}{
		{500, "II", "1.0", Normal, Plan{500, "H", "H", 50, 1, 2, false}},
		{500, "II", "0.40", Normal, Plan{500, "H", "G", 32, 0, 1, false}},
		{1000, "II", "0.40", Normal, Plan{1000, "J", "K", 125, 1, 2, false}},
		{5000, "II", "6.5", Normal, Plan{5000, "L", "L", 200, 21, 22, false}},
		{40, "I", "4.0", Normal, Plan{40, "C", "B", 3, 0, 1, false}},
		{8, "II", "2.5", Normal, Plan{8, "A", "C", 5, 0, 1, false}},
		{8, "II", "0.65", Normal, Plan{8, "A", "F", 8, 0, 1, true}},
		{1000, "II", "1.0", Tightened, Plan{1000, "J", "J", 80, 1, 2, false}},
		{1000, "II", "1.0", Reduced, Plan{1000, "J", "J", 32, 1, 2, false}},
	} {
		got, err := FindPlan(c.lot, c.level, c.aql, c.severity)
		if err != nil || got != c.want {
			t.Errorf("lot %d, level %s, AQL %s, %s: %+v, want %+v (%v)", c.lot, c.level, c.aql, c.severity, got, c.want, err)
		}
	}
	for _, c := range []struct{ level, aql, severity string }{{"IV", "1.0", "normal"}, {"II", "1", "normal"}, {"II", "1.0", "strict"}} {
		if plan, err := FindPlan(500, c.level, c.aql, Severity(c.severity)); err == nil {
			t.Errorf("%+v gives the plan %+v", c, plan)
		}
	}
}

func TestDecisionInWords(t *testing.T) {
	for want, p := range map[string]Plan{
		"Accept if none is bad; reject at one":           {Accept: 0, Reject: 1},
		"Accept if no more than one is bad; reject at 2": {Accept: 1, Reject: 2},
		"Accept if 10 or fewer are bad; reject at 11":    {Accept: 10, Reject: 11},
	} {
		if got := p.Decision(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
