package mask

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/audit/record"
)

const (
	vinOne = "WZZZZZ8K9AA000001"
	vinTwo = "WZZZZZ8K9AA000002"
)

// aMasker looks for the values given, each as field, shop and value, in the texts of job 7 of the shop north, whose VIN
// is vinOne and whose claim number is 4711.
func aMasker(t *testing.T, values ...[3]string) *Masker {
	t.Helper()
	m, err := New([]Field{Claim, Technician, VIN}, []byte("seed of a test"))
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range values {
		m.everywhere.add(Field(v[0]), v[1], v[2])
	}
	m.own[jobSeven] = []ownForm{ownValue(VIN, vinOne), ownValue(Claim, "4711")}
	return m
}

var jobSeven = record.Job{Shop: "north", JobNo: "T24-0007"}

func TestShapes(t *testing.T) {
	for value, want := range map[string]shape{
		"": anyWord, "7": anyWord, "A": anyWord, "@T": anyWord, "07": anyWord, "112": anyWord, "on": anyWord, "May": anyWord, "photo": anyWord,
		"1042": ownNumber, "20-26": ownNumber, "12345": ownNumber,
		"JS": asWritten, "J. S.": asWritten, "will": anywhere, "Éva": anywhere,
		"T7": anywhere, "C-1": anywhere, "123456": anywhere, "archer": anywhere, "Ana Lu": anywhere,
	} {
		if got := shapeOf(Technician, value); got != want {
			t.Errorf("%q has shape %d, want %d", value, got, want)
		}
	}
}

func TestNumbersHaveDigits(t *testing.T) {
	for value, want := range map[string]shape{"CASH": anyWord, "customer pays": anyWord, "ACL-1": anywhere, "4711": ownNumber} {
		if got := shapeOf(Claim, value); got != want {
			t.Errorf("the claim number %q has shape %d, want %d", value, got, want)
		}
	}
}

func TestValuesInTexts(t *testing.T) {
	m := aMasker(t, [3]string{"job", "", "T07"}, [3]string{"job", "", "Jo\u0308rg"}, // a code goes before a number that is the same
		[3]string{"technician", "north", "T07"}, [3]string{"technician", "north", "T24"}, [3]string{"technician", "north", "JS"},
		[3]string{"technician", "north", "Will"}, [3]string{"technician", "north", "7"}, [3]string{"technician", "north", "1042"},
		[3]string{"technician", "north", "Ana Ruz"}, [3]string{"technician", "north", "Ana Ruz Ott"}, [3]string{"technician", "north", "Jörgen"},
		[3]string{"technician", "north", "unknown"}, [3]string{"technician", "north", "@shop9"}, [3]string{"technician", "south", "2042"},
		[3]string{"claim", "", "ACL-4"}, [3]string{"claim", "", "2026"}, [3]string{"vin", "", vinTwo}, [3]string{"job", "", "T24-0007"},
		[3]string{"job", "", "js-12"})
	of := func(value string) string { return m.token(Technician, "north", value) }
	vin, claim := m.token(VIN, "", vinOne), m.token(Claim, "", "4711")
	for _, c := range []struct {
		text, want string
		isDoubtful bool
	}{
		{"driven by T07, no warning", "driven by " + of("T07") + ", no warning", false},
		{"T07", of("T07"), false},
		{"by t07; T07's bay; (T07)", "by " + of("T07") + "; " + of("T07") + "'s bay; (" + of("T07") + ")", false},
		{"photo_T07-2.jpg", "photo_" + of("T07") + "-2.jpg", false}, // an underscore joins names of files, not words
		{"T071 and AT07, T07é and T07e\u0301", "T071 and AT07, T07é and T07e\u0301", false},
		{"JS drove, the js file", "" + of("JS") + " drove, the js file", true},
		{"JS drove", of("JS") + " drove", false},
		{"Will drove, all WILL be well", of("Will") + " drove, all " + of("Will") + " be well", false},
		{"7 km with 7", "7 km with 7", true},
		{"17 km", "17 km", false},
		{"by 1042, not 2042", "by " + of("1042") + ", not 2042", false}, // the other number is a technician's elsewhere
		{"ana ruz and ANA RUZ OTT", of("Ana Ruz") + " and " + of("Ana Ruz Ott"), false},
		{"Jo\u0308rgen.jpg", of("Jörgen") + ".jpg", false}, // as some systems write names of files
		{"nothing of Jo\u0308rg", "nothing of Jo\u0308rg", false},
		{"status unknown", "status unknown", false}, // a word of the layout names nobody
		{"by @SHOP9", "by @" + of("@shop9"), false},
		{"T24-0007_pre-scan by T24.pdf", "T24-0007_pre-scan by " + of("T24") + ".pdf", false},
		{"like js-12", "like js-12", false},
		{"a4711 and 47110", "a4711 and 47110", false},
		{"T24-0008", of("T24") + "-0008", false},
		{"see acl-4 and " + strings.ToLower(vinTwo), "see " + m.token(Claim, "", "ACL-4") + " and " + m.token(VIN, "", vinTwo), false},
		{"in 2026 about 4711", "in 2026 about " + claim, false}, // a number counts in its own job only
		{"IMG" + vinOne + "A.jpg", "IMG" + vin + "A.jpg", false},
		{"wzz zzz-8k9 AA000001", vin, false},
		{"", "", false},
	} {
		if got, isDoubtful := m.text(jobSeven, c.text); got != c.want || isDoubtful != c.isDoubtful {
			t.Errorf("%q becomes %q, doubtful %v; want %q, %v", c.text, got, isDoubtful, c.want, c.isDoubtful)
		}
	}
}

// Who is meant by a code: the shop's own, as it is written; else of the only shop that has it; else nobody can tell.
func TestWhoIsMeant(t *testing.T) {
	m := aMasker(t, [3]string{"technician", "east", "T07"}, [3]string{"technician", "north", "T07"}, [3]string{"technician", "north", "t07"},
		[3]string{"technician", "south", "T07"}, [3]string{"technician", "south", "T08"})
	got := map[string]string{}
	for _, c := range [][2]string{{"north", "T07"}, {"north", "t07"}, {"south", "t07"}, {"north", "T08"}, {"west", "T07"}, {"", "T08"}} {
		got[c[0]+"/"+c[1]], _ = m.text(record.Job{Shop: c[0], JobNo: "1"}, c[1])
	}
	of := func(shop, value string) string { return m.token(Technician, shop, value) }
	want := map[string]string{"north/T07": of("north", "T07"), "north/t07": of("north", "t07"), "south/t07": of("south", "T07"),
		"north/T08": of("south", "T08"), "west/T07": m.formToken(Technician, "west", "t07"), "/T08": of("south", "T08")}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
}
