package intake

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/draft"
	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// withForeignReadings is a history with the macros of profiles.
func withForeignReadings(t testing.TB) *history.History {
	t.Helper()
	h := emptyHistory(t)
	for _, macros := range []string{"intake/readings", "intake/foreign_readings"} {
		if err := h.Exec(context.Background(), macros, nil); err != nil {
			t.Fatal(err)
		}
	}
	return h
}

// asked evaluates an expression over $x; null is "null".
func asked(t testing.TB, h *history.History, expression, x string) string {
	t.Helper()
	rows, err := history.SelectStatement[struct{ Value string }](context.Background(), h, history.Statement{Name: "fuzz",
		SQL: "select coalesce((" + expression + ")::varchar, 'null') as value from (select $x::varchar as x)"}, history.Params{"x": x})
	if err != nil {
		t.Fatalf("%s of %q: %v", expression, x, err)
	}
	return rows[0].Value
}

// isText leaves out what no file that was taken can hold.
func isText(x string) bool { return utf8.ValidString(x) && !strings.Contains(x, "\x00") }

// Whatever the text, the reader of dates ends; what comes out can be read as a moment, or is the text as it was written.
func FuzzMoment(f *testing.F) {
	for _, seed := range []string{"3/9/2026 2:05 PM", "13/9/2026", "9. 3. 26", "2026-03-09T14:05:30.25+02:00", "31-Feb-2026", "46090.5", "60", "0/0/0", "24:00",
		"9999999", "1e5", "-1", "March 9, 2026 12:00 am", "29/02/1900", "２０２６-03-09", "3/9/2026 99:99:99 PM", "infinity", "3/9/2026 2:05:07.123 PM"} {
		f.Add(seed, 0)
		f.Add(seed, 7)
	}
	h := withForeignReadings(f)
	f.Fuzz(func(t *testing.T, x string, way int) {
		if !isText(x) {
			return
		}
		order := []string{"", "mdy", "dmy", "ymd"}[(way%4+4)%4]
		serials := []string{"", "1900", "1904"}[(way/4%3+3)%3]
		got := asked(t, h, fmt.Sprintf("coalesce(moment_text(x, '%s', '%s') = tidy(x), true) or read_moment(moment_text(x, '%[1]s', '%[2]s')) is not null", order, serials), x)
		if got != "true" {
			t.Errorf("%q in %q, %q becomes %s", x, order, serials, asked(t, h, fmt.Sprintf("moment_text(x, '%s', '%s')", order, serials), x))
		}
	})
}

// A number written in any country's marks is read as that number, and what is no number stays unreadable.
func FuzzNumber(f *testing.F) {
	for _, seed := range []string{"1.234,5", "12.5", "1,234.5", "1.2.3", "--1", "NaN", "1e309", "0x10", "1_000", "١٢", "1 234", "1'234", ",", "", "+.5", "5."} {
		f.Add(seed, 1234.5)
	}
	f.Add("x", -0.001)
	h := withForeignReadings(f)
	f.Fuzz(func(t *testing.T, x string, number float64) {
		if isText(x) {
			for _, marks := range [][2]string{{".", ""}, {".", ","}, {",", "."}, {",", " "}, {",", ""}} {
				got := asked(t, h, fmt.Sprintf("read_number(number_text(x, '%s', '%s'))", marks[0], marks[1]), x)
				if got != "null" && !strings.ContainsAny(x, "0123456789") {
					t.Errorf("%q is read as %s", x, got)
				}
			}
		}
		if math.IsNaN(number) || math.Abs(number) > 1e12 {
			return
		}
		written := grouped(fmt.Sprintf("%.3f", number))
		for _, marks := range [][2]string{{".", ","}, {",", "."}, {",", " "}, {".", "'"}} {
			there := strings.NewReplacer(".", marks[0], ",", marks[1]).Replace(written)
			got := asked(t, h, fmt.Sprintf("abs(read_number(number_text(x, '%s', '%s')) - %.3f) < 1e-6", marks[0], strings.ReplaceAll(marks[1], "'", "''"), number), there)
			if got != "true" {
				t.Errorf("%q is not read as %.3f", there, number)
			}
		}
	})
}

// grouped writes commas between thousands.
func grouped(text string) string {
	sign := ""
	if strings.HasPrefix(text, "-") {
		sign, text = "-", text[1:]
	}
	whole, fraction, _ := strings.Cut(text, ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "," + whole[at:]
	}
	return sign + whole + "." + fraction
}

// A value in any unit comes out finite in the quantity's own, or not at all; there and back is the same.
func FuzzUnit(f *testing.F) {
	f.Add(1499.5)
	f.Add(-0.3)
	f.Add(math.MaxFloat64)
	f.Add(math.SmallestNonzeroFloat64)
	h := withForeignReadings(f)
	pairs := map[string][2]float64{"in mm": {25.4, 0}, "ft mm": {304.8, 0}, "psi kPa": {6.894757293168362, 0}, "bar kPa": {100, 0}, "lb kg": {0.45359237, 0}, "fc lux": {10.763910416709722, 0}}
	f.Fuzz(func(t *testing.T, value float64) {
		if math.IsNaN(value) || math.IsInf(value, 0) {
			return
		}
		for pair, factor := range pairs {
			unit, stored, _ := strings.Cut(pair, " ")
			got := asked(t, h, fmt.Sprintf("in_stored_unit(read_number(x), '%s'::unit_word, '%s'::unit_word)", unit, stored), fmt.Sprint(value))
			want := value * factor[0]
			switch {
			case math.IsInf(want, 0) && got != "null":
				t.Errorf("%v %s is %s", value, pair, got)
			case !math.IsInf(want, 0) && math.Abs(number(t, got)-want) > 1e-9*math.Abs(want):
				t.Errorf("%v %s is %s, want %v", value, pair, got, want)
			}
		}
	})
}

// A list of faults, whatever it holds, gives no more faults than it has items, and each module and code stands in it.
func FuzzFaultList(f *testing.F) {
	for _, seed := range []string{"Body: B1342-12 (stored); Brakes: C1101 (active)", "none", ";;;", "Body:", ": (x)", "a: b: c (stored)", "\n;\t", "B1342;B1342", strings.Repeat("a: C1101 (active);", 300)} {
		f.Add(seed)
	}
	parsed, err := profile.Parse("p.toml", []byte("[shared]\nshop = { constant = \"n\" }\njob_no = { constant = \"1\" }\n[[record]]\nkind = \"faults\"\neach = { column = \"Codes\", separator = ';', except = '^none$' }\n[record.fields]\n"+
		"scan_no = { constant = \"1\" }\nmodule = { item = true, extract = '^(.*?): ' }\ncode = { item = true, extract = ': (\\S+)' }\nstatus = { item = true, extract = '\\((\\w+)\\)$' }\n"))
	if err != nil {
		f.Fatal(err)
	}
	h := withForeignReadings(f)
	faults := layout.KindNamed("faults")
	staged := func(column string) string { // the text of a column of the layout, as read_rows holds it
		return fmt.Sprintf("coalesce(c%d, '')", 1+slices.IndexFunc(faults.Columns, func(c layout.Column) bool { return c.Name == column }))
	}
	texts := "select " + staged("module") + " as module, " + staged("code") + " as code from read_rows"
	f.Fuzz(func(t *testing.T, cell string) {
		if !isText(cell) {
			return
		}
		im := &importing{ctx: context.Background(), h: h, profile: parsed}
		if _, err := h.Run(im.ctx, history.Statement{Name: "fuzz", SQL: "create or replace temporary table foreign_rows as " +
			"select 0::bigint as id, 2::bigint as line, 1 as found, 0 as level, null::varchar as misshapen, [x] as fields, x as c1 from (select $x::varchar as x)"}, history.Params{"x": cell}); err != nil {
			t.Fatal(err)
		}
		one := &profile.Mapped{Profile: parsed, Records: parsed.Records, Source: []string{"Codes"}}
		if err := (foreignRows{one}).stage(im, &part{kind: faults}); err != nil {
			t.Fatalf("%q: %v", cell, err)
		}
		type row struct{ Module, Code string }
		rows, err := history.SelectStatement[row](im.ctx, h, history.Statement{Name: "fuzz", SQL: texts}, nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(rows) > strings.Count(cell, ";")+1 {
			t.Errorf("%q gives %d faults", cell, len(rows))
		}
		for _, row := range rows {
			if !strings.Contains(cell, row.Module) || !strings.Contains(cell, row.Code) {
				t.Errorf("%q gives %+v", cell, row)
			}
		}
	})
}

// A draft of any text is refused, or is a profile that can be read as TOML.
func FuzzDraft(f *testing.F) {
	list, err := os.ReadFile(foreignList)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(string(list[:4000]))
	f.Add("RO#,Date In,Odometer (mi),System,DTCs\n1,3/9/2026,\"1,000\",front camera; L,C1101\n")
	f.Add("VIN,\"a\"\"b\n c\",\\,'\n1M8GDM9AXKP042788,#,\x7f,\u2028\n")
	f.Add("Start,End,Start,End\nScan,,Drive,\n1,2,3,4\n")
	f.Fuzz(func(t *testing.T, text string) {
		path := filepath.Join(t.TempDir(), "list.csv")
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		draft, err := draft.Read(context.Background(), path)
		if err != nil {
			return
		}
		var any map[string]any
		if err := toml.Unmarshal([]byte(draft.TOML), &any); err != nil {
			t.Errorf("%q: %v\n%s", text, err, draft.TOML)
		}
	})
}
