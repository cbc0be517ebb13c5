package stats

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// referenceFolder holds published values, one item a file, with their citations.
const referenceFolder = "../../testdata/reference"

// Values computed by R 4.2.2 stand in the files to about ten significant digits; what a source prints stands there with
// its own digits.
const tenDigits = 1e-8

// published is a source of values. Every check names one.
type published struct {
	t      *testing.T
	source string
}

func from(t *testing.T, source string) published {
	t.Helper()
	if strings.TrimSpace(source) == "" {
		t.Fatal("a check without a source proves nothing")
	}
	return published{t: t, source: source}
}

// printed compares with a value as printed, to half a unit of its last decimal.
func (p published) printed(what string, got, want float64, decimals int) {
	p.t.Helper()
	// A little more than half a unit, as binary fractions are not decimal ones.
	if !(math.Abs(got-want) <= 0.5000001*math.Pow(10, -float64(decimals))) {
		p.t.Errorf("%s: got %.12g, want %.*f (%s)", what, got, decimals, want, p.source)
	}
}

// near compares with a value known to many digits, within a relative distance.
func (p published) near(what string, got, want, relative float64) {
	p.t.Helper()
	if !(math.Abs(got-want) <= relative*math.Max(math.Abs(want), 1e-300)) && got != want {
		p.t.Errorf("%s: got %.12g, want %.12g within %g (%s)", what, got, want, relative, p.source)
	}
}

// nearInterval compares both bounds; a bound of 0 or 1 must be exact to 1e-9.
func (p published) nearInterval(what string, got Interval, want [2]float64) {
	p.t.Helper()
	for i, bound := range []float64{got.Low, got.High} {
		if math.Abs(bound-want[i]) > 1e-9+1e-8*math.Abs(want[i]) {
			p.t.Errorf("%s: got %.10g to %.10g, want %.10g to %.10g (%s)", what, got.Low, got.High, want[0], want[1], p.source)
			return
		}
	}
}

// same compares counts, places and lists of them.
func (p published) same(what string, got, want any) {
	p.t.Helper()
	a, _ := json.Marshal(got)
	b, _ := json.Marshal(want)
	if string(a) != string(b) {
		p.t.Errorf("%s: got %s, want %s (%s)", what, a, b, p.source)
	}
}

// reference reads a file of published values into value and gives its citations as the source.
func reference(t *testing.T, name string, value any) published {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(referenceFolder, name))
	if err != nil {
		t.Fatal(err)
	}
	var header struct{ Citation []string }
	for _, into := range []any{&header, value} {
		if err := json.Unmarshal(raw, into); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	return from(t, strings.Join(header.Citation, "; "))
}

// numbers reads a table of numbers by column name.
func numbers(t *testing.T, path string) []map[string]float64 {
	t.Helper()
	var table []map[string]float64
	for _, r := range readRows(t, filepath.Join(referenceFolder, path)) {
		line := map[string]float64{}
		for name, text := range r {
			value, err := strconv.ParseFloat(text, 64)
			if err != nil {
				t.Fatal(err)
			}
			line[name] = value
		}
		table = append(table, line)
	}
	return table
}

// must takes a result that has no reason to fail.
func must[T any](t *testing.T) func(T, error) T {
	return func(value T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

// tolerantlyEqual compares within a relative or absolute distance, for laws that hold but for rounding.
func tolerantlyEqual(a, b, tolerance float64) bool {
	return math.Abs(a-b) <= tolerance*math.Max(1, math.Max(math.Abs(a), math.Abs(b)))
}
