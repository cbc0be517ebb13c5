package intake

import "testing"

// Days and times as they are written in four languages. The names of months are those of the Unicode CLDR, wide and
// abbreviated, of en, es, fr and de; from memory.
func TestMomentsOfFourLanguages(t *testing.T) {
	h := withForeignReadings(t)
	months := [][]string{
		{"January", "Jan", "enero", "ene", "janvier", "janv.", "Januar", "Jan."}, {"February", "Feb", "febrero", "feb", "février", "févr.", "Februar", "Feb."},
		{"March", "Mar", "marzo", "mar", "mars", "März", "Mrz"}, {"April", "Apr", "abril", "abr", "avril", "avr.", "Apr."},
		{"May", "mayo", "may", "mai", "Mai"}, {"June", "Jun", "junio", "jun", "juin", "Juni"}, {"July", "Jul", "julio", "jul", "juillet", "juil.", "Juli"},
		{"August", "Aug", "agosto", "ago", "août", "Aug."}, {"September", "Sep", "Sept", "septiembre", "sept", "septembre", "Sept."},
		{"October", "Oct", "octubre", "octobre", "Oktober", "Okt."}, {"November", "Nov", "noviembre", "novembre", "nov."},
		{"December", "Dec", "diciembre", "dic", "décembre", "déc.", "Dezember", "Dez."}}
	for i, names := range months {
		for _, name := range names {
			want := []string{"2026-01-09", "2026-02-09", "2026-03-09", "2026-04-09", "2026-05-09", "2026-06-09", "2026-07-09", "2026-08-09", "2026-09-09", "2026-10-09", "2026-11-09", "2026-12-09"}[i]
			if got := asked(t, h, "moment_text(x, 'dmy', '')", "9 "+name+" 2026"); got != want {
				t.Errorf("%s: %s", name, got)
			}
		}
	}
	for written, want := range map[string]string{
		"lunes, 9 de marzo de 2026":   "2026-03-09",
		"lundi 9 mars 2026":           "2026-03-09",
		"Mo., 9. März 2026 14.05 Uhr": "2026-03-09 14:05",
		"mar. 10 mars 2026 à 9h05":    "2026-03-10 09:05",
		"1er juin 2026":               "2026-06-01",
		"March 9th 2026":              "2026-03-09",
		"March 9, 2026 2 pm":          "2026-03-09 14:00",
		"Mon 9 Mar 2026 2:05 p. m.":   "2026-03-09 14:05",
		"9/3/26 14h05":                "2026-03-09 14:05",
		"09.03.2026 14:05 Uhr":        "2026-03-09 14:05",
		"09.03.2026, 14.05":           "2026-03-09 14:05",
		"2:05 PM 9/3/2026":            "2026-03-09 14:05",
		"20260309":                    "2026-03-09",
		"20260309T140530":             "2026-03-09 14:05:30",
		"1773065100":                  "2026-03-09T14:05:00Z",
		"1773065100000":               "2026-03-09T14:05:00Z",
		"9 Brumaire 2026":             "9 Brumaire 2026",
		"30/2/2026":                   "30/2/2026",
		"2026-03-09T14:05:00+01:00":   "2026-03-09T14:05:00+01:00",
	} {
		if got := asked(t, h, "moment_text(x, 'dmy', '')", written); got != want {
			t.Errorf("%s: %s, want %s", written, got, want)
		}
	}
}
