package invent

import "testing"

// The first number is the sample of 49 CFR 565.15(c), Table VI; the second and
// third are widely used examples with remainder 10 and 1, the last two were
// constructed from the first.
func TestCheckDigit(t *testing.T) {
	for number, want := range map[string]byte{
		"1G4AH59H45G118341": '4', "1M8GDM9AXKP042788": 'X', "5GZCZ43D13S812715": '1',
		"1G4AH59HX5G118344": 'X', "1G4AH59H55G118341": '4',
	} {
		if got := checkDigit([]byte(number)); got != want {
			t.Errorf("%s: check digit %c, want %c", number, got, want)
		}
	}
}

// Model-year codes of position 10 from 49 CFR 565.15(c), Table VII.
func TestYearCode(t *testing.T) {
	for year, want := range map[int]byte{2010: 'A', 2017: 'H', 2018: 'J', 2022: 'N', 2023: 'P', 2025: 'S', 2026: 'T', 2030: 'Y', 2031: '1', 2039: '9'} {
		if got := yearCode(year); got != want {
			t.Errorf("%d: %c, want %c", year, got, want)
		}
	}
}

func TestNumbersDiffer(t *testing.T) {
	seen := map[string]int{}
	for serial := range 1_200_000 {
		number := vin(models[0], 2024, serial, 'Z')
		if before, again := seen[number]; again {
			t.Fatalf("serials %d and %d both give %s", before, serial, number)
		}
		seen[number] = serial
	}
}
