package main

import (
	"regexp"
	"strings"
	"testing"

	"plumbline/analysis/layout"
)

// Children without a job, faults without a scan and readings without an
// attempt are planted, a few of each; everything else hangs together.
func TestOnlyPlantedRecordsHangInTheAir(t *testing.T) {
	jobs, scans, attempts := keysOf(t, "jobs", "shop job_no"), keysOf(t, "scans", "shop job_no scan_no"),
		keysOf(t, "calibrations", "shop job_no system position attempt_no")
	lost, faults, readings := map[string]bool{}, 0, 0
	for _, kind := range layout.Kinds {
		for _, r := range records(t, kind.Name) {
			switch {
			case kind.Name == "equipment_checks":
			case !jobs[r.job()]:
				lost[r.job()] = true
			case kind.Name == "faults" && !scans[r.key("shop", "job_no", "scan_no")]:
				faults++
			case kind.Name == "measurements" && r["system"] != "" && !attempts[r.key("shop", "job_no", "system", "position", "attempt_no")]:
				readings++
			}
		}
	}
	few(t, "lost jobs", len(lost), 8)
	few(t, "faults without scan", faults, 40)
	few(t, "readings without attempt", readings, 40)
}

func keysOf(t *testing.T, kind, columns string) map[string]bool {
	t.Helper()
	keys := map[string]bool{}
	for _, r := range records(t, kind) {
		keys[r.key(strings.Fields(columns)...)] = true
	}
	return keys
}

// few wants something planted: at least one, and not many.
func few(t *testing.T, what string, got, most int) {
	t.Helper()
	if got < 1 || got > most {
		t.Errorf("%s: %d, want 1 to %d", what, got, most)
	}
}

var wellFormed = regexp.MustCompile(`^[A-HJ-NPR-Z0-9]{17}$`)

func TestVehicleNumbers(t *testing.T) {
	missing, malformed, wrong := 0, 0, 0
	vehicles := map[string]string{}
	for _, r := range records(t, "jobs") {
		vin := r["vin"]
		switch {
		case vin == "":
			missing++
		case !wellFormed.MatchString(vin):
			malformed++
		case strings.Contains("12345", vin[:1]) && vin[8] != checkDigit(vin):
			wrong++
		default:
			what := strings.ToLower(r.key("make", "model", "model_year"))
			if before, seen := vehicles[vin]; seen && before != what {
				t.Errorf("%s is a %s and a %s", vin, before, what)
			}
			vehicles[vin] = what
		}
	}
	few(t, "missing VIN", missing, 40)
	few(t, "malformed VIN", malformed, 40)
	few(t, "wrong check digit", wrong, 40)
	if jobs := len(records(t, "jobs")); len(vehicles) > jobs*9/10 || len(vehicles) < jobs*6/10 {
		t.Errorf("%d vehicles in %d jobs: want some that return", len(vehicles), jobs)
	}
}

// checkDigit follows 49 CFR 565.15(c), Tables III and IV, written down here a
// second time, apart from the generator's.
func checkDigit(vin string) byte {
	const letters, values, weights = "ABCDEFGHJKLMNPRSTUVWXYZ", "12345678123457923456789", "8765432X098765432"
	sum := 0
	for i, c := range vin {
		value := int(c - '0')
		if at := strings.IndexRune(letters, c); at >= 0 {
			value = int(values[at] - '0')
		}
		weight := int(weights[i] - '0')
		if weights[i] == 'X' {
			weight = 10
		}
		sum += value * weight
	}
	return "0123456789X"[sum%11]
}

// The check itself is checked by 49 CFR 565.15(c), Table VI: 1G4AH59H45G118341,
// whose sum is 411 and remainder 4; the others are widely used examples.
func TestCheckDigitAgainstTheRegulation(t *testing.T) {
	for _, vin := range []string{"1G4AH59H45G118341", "1M8GDM9AXKP042788", "5GZCZ43D13S812715"} {
		if got := checkDigit(vin); got != vin[8] {
			t.Errorf("%s: check digit %c", vin, got)
		}
	}
}

// standardCode is the form of SAE J2012, with or without a failure-type byte.
var standardCode = regexp.MustCompile(`^[PCBU][0-3][0-9A-F]{3}(-?[0-9A-F]{2})?$`)

func TestTroubleCodes(t *testing.T) {
	odd := 0
	for _, r := range records(t, "faults") {
		if standardCode.MatchString(r["code"]) {
			continue
		}
		odd++
		if r["module"] != "Cabin Gateway" {
			t.Errorf("%s reports %s, which has not the standard form", r["module"], r["code"])
		}
	}
	few(t, "codes of another form", odd, 120)
}

// Nothing happens before the first morning or after the last evening.
func TestNothingHappensOutsideTheTwoYears(t *testing.T) {
	for _, kind := range layout.Kinds {
		for _, r := range records(t, kind.Name) {
			for _, column := range moments {
				day := r[column]
				if len(day) > 10 {
					day = day[:10]
				}
				if day != "" && column != "due_at" && (day > "2026-09-30" || day < "2024-10-01" && kind.Name != "equipment_checks") {
					t.Errorf("%s %s: %s is %s", kind.Name, r.job(), column, r[column])
				}
			}
		}
	}
}
