package intake

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"plumbline/analysis/history"
)

// reading evaluates one expression over the macros of readings.sql.
func reading(t testing.TB, h *history.History, expression string) string {
	t.Helper()
	return one(t, h, "select coalesce(("+expression+")::varchar, 'null')")
}

func withReadings(t testing.TB) *history.History {
	t.Helper()
	h := emptyHistory(t)
	if err := h.Exec(context.Background(), "intake/readings", nil); err != nil {
		t.Fatal(err)
	}
	return h
}

// Source: SAE J2012 / ISO 15031-6, examples in 18_dtc.json.
func TestTroubleCodesOfTheStandard(t *testing.T) {
	var published struct {
		Examples  []struct{ Code string }
		ThreeByte struct{ Examples []struct{ Code string } } `json:"three_byte"`
		Invalid   []string                                   `json:"invalid_text"`
		Lowercase struct{ Input, Canonical string }
	}
	reference(t, "18_dtc.json", &published)
	h := withReadings(t)
	for _, example := range append(published.Examples, published.ThreeByte.Examples...) {
		for _, written := range []string{example.Code, strings.ToLower(example.Code), strings.ReplaceAll(example.Code, "-", ":"),
			strings.ReplaceAll(example.Code, "-", "")} {
			if got := reading(t, h, "read_code("+quoted(written)+")"); got != example.Code {
				t.Errorf("%s is stored as %s, want %s", written, got, example.Code)
			}
		}
	}
	for _, written := range published.Invalid {
		if got := reading(t, h, "read_code("+quoted(written)+")"); got != written {
			t.Errorf("%s, which is not of the form, is stored as %s", written, got)
		}
	}
	if got := reading(t, h, "read_code("+quoted(published.Lowercase.Input)+")"); got != published.Lowercase.Canonical {
		t.Errorf("%s is stored as %s", published.Lowercase.Input, got)
	}
}

// Source: 49 CFR 565.15, examples in 17_vin.json; a wrong check digit never rejects.
func TestVINsOfTheRegulation(t *testing.T) {
	h := withReadings(t)
	for _, vin := range []string{"1M8GDM9AXKP042788", "11111111111111111", "1HGCM82633A004352", "JM1BN1U70H1100922", "5GZCZ43D13S812715"} {
		for _, written := range []string{vin, strings.ToLower(vin), vin[:3] + "-" + vin[3:9] + " " + vin[9:]} {
			if got := reading(t, h, "read_vin("+quoted(written)+")"); got != vin {
				t.Errorf("%s is stored as %s", written, got)
			}
		}
	}
	if got := reading(t, h, "read_vin('1m8gdm9axkpo42788')"); got != "1M8GDM9AXKPO42788" { // O is no character of a VIN
		t.Errorf("a malformed VIN is stored as %s", got)
	}
}

// Source: NIST SP 811 (2008), appendix B.8, factors in 19_units.json; degrees and slopes by definition.
func TestUnitFactors(t *testing.T) {
	var published struct {
		Factors []struct {
			From   string `json:"from_"`
			To     string
			Factor float64
			SP811  string
		}
	}
	reference(t, "19_units.json", &published)
	ours := map[string]struct {
		unit, stored string
		scale        float64
	}{
		"inch m": {"in", "mm", 1000}, "foot m": {"ft", "mm", 1000}, "psi kPa": {"psi", "kPa", 1}, "bar kPa": {"bar", "kPa", 1},
		"footcandle lx": {"fc", "lux", 1}, "pound (avoirdupois) kg": {"lb", "kg", 1},
	}
	h, seen := withReadings(t), 0
	for _, factor := range published.Factors {
		unit, ok := ours[factor.From+" "+factor.To]
		if !ok {
			continue
		}
		seen++
		got := number(t, reading(t, h, fmt.Sprintf("in_stored_unit(1::double, '%s'::unit_word, '%s'::unit_word)", unit.unit, unit.stored)))
		if math.Abs(got/unit.scale/factor.Factor-1) > 1e-15*4 {
			t.Errorf("1 %s = %v %s, SP 811 has %s", unit.unit, got, unit.stored, factor.SP811)
		}
	}
	if seen != len(ours) {
		t.Errorf("%d of %d factors found in the reference", seen, len(ours))
	}
	for expression, want := range map[string]float64{
		"in_stored_unit(45::double, 'deg'::unit_word, 'mm_per_m'::unit_word)": 1000,
		"in_stored_unit(1::double, 'pct'::unit_word, 'mm_per_m'::unit_word)":  10,
		"in_stored_unit(1000 * pi(), 'mrad'::unit_word, 'deg'::unit_word)":    180,
		"in_stored_unit(2::double, 'cm'::unit_word, 'mm'::unit_word)":         20,
		"in_stored_unit(2::double, 'm'::unit_word, 'mm'::unit_word)":          2000,
	} {
		if got := number(t, reading(t, h, expression)); math.Abs(got/want-1) > 1e-12 {
			t.Errorf("%s = %v, want %v", expression, got, want)
		}
	}
}

func number(t testing.TB, text string) float64 {
	t.Helper()
	var value float64
	if _, err := fmt.Sscan(text, &value); err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return value
}
