package audit

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"
)

// nasty are names and texts that break files, cells and pages.
var nasty = []string{"a/b", `a\b`, `say "hi"`, "it's", "'", "''", "line\nbreak", "\u202egnp.exe", "\U0001F600", "../../etc/passwd", "..", ".",
	"CON", "con.txt", "LPT1.pdf", "aux", "nul.tar.gz", strings.Repeat("long", 125), "=1+1", "+1", "-1", "@x", "\tx", "＝1", "a,b;c",
	"", " ", "trailing.", "<script>", "COM¹", "ok-name_1.pdf"}

func TestNeutralCellsCanBeUndone(t *testing.T) {
	for _, text := range nasty {
		got := neutral(text)
		if restored(got) != text {
			t.Errorf("%q becomes %q, which gives %q back", text, got, restored(got))
		}
		if got != "" && strings.ContainsRune("=+-@\t＝＋－＠", []rune(got)[0]) {
			t.Errorf("%q stays %q, which a spreadsheet may run", text, got)
		}
	}
}

func TestSafeNames(t *testing.T) {
	seen := map[string]string{}
	for _, text := range nasty {
		name := safeName(text)
		if other, taken := seen[strings.ToLower(name)]; taken {
			t.Errorf("%q and %q are both %q", text, other, name)
		}
		seen[strings.ToLower(name)] = text
		if len(name) > 100 || name == "" || name[0] == '.' || strings.HasSuffix(name, ".") || reserved.MatchString(name) ||
			strings.ContainsFunc(name, func(r rune) bool { return r >= utf8.RuneSelf || strings.ContainsRune(`/\:*?"<>| `, r) || r < 32 }) {
			t.Errorf("%q becomes %q", text, name)
		}
		if err := os.WriteFile(filepath.Join(t.TempDir(), name), nil, 0o600); err != nil {
			t.Error(err)
		}
	}
	if got := safeName("ok-name_1.pdf"); got != "ok-name_1.pdf" {
		t.Errorf("a plain name becomes %q", got)
	}
}

func TestVisible(t *testing.T) {
	if got := visible("a\u202eb\x07\n\U0001F468\u200d\U0001F527"); got != "a[U+202E]b[U+0007]\n\U0001F468\u200d\U0001F527" {
		t.Errorf("%q", got)
	}
}

func TestFields(t *testing.T) {
	for want, value := range map[string]any{
		"": nil, "'=x": "=x", "-3": int64(-3), "0.1": 0.1, "1500000000000": 1.5e12, "2026-01-05 08:00:00": time.Date(2026, 1, 5, 8, 0, 0, 0, time.UTC),
		"2026-01-05 08:00:00.25": time.Date(2026, 1, 5, 8, 0, 0, 250e6, time.UTC),
	} {
		if got := field(value); got != want {
			t.Errorf("%v is written %q, want %q", value, got, want)
		}
	}
}

// What a spreadsheet cannot hold as a date or whole as a text is written so that nothing is lost or wrong.
// Source for 1 March 1900: ECMA-376 part 1, section 18.17.4.1.
func TestCellsThatDoNotFit(t *testing.T) {
	book := &workbook{moment: 7}
	if got := book.cell(time.Date(1900, 2, 28, 0, 0, 0, 0, time.UTC)); got != "1900-02-28 00:00:00" {
		t.Errorf("a day before the calendar's fault is %v", got)
	}
	day := time.Date(1900, 3, 1, 0, 0, 0, 0, time.UTC)
	if got := book.cell(day); got != (excelize.Cell{StyleID: 7, Value: day}) {
		t.Errorf("1 March 1900 is %v", got)
	}
	long := strings.Repeat("ä", excelize.TotalCellChars+1)
	got := book.cell(long).(string)
	if n := len([]rune(got)); n != excelize.TotalCellChars || !strings.HasSuffix(got, "(cut here; the CSV file has the whole text)") {
		t.Errorf("a text of %d characters is cut to %d", excelize.TotalCellChars+1, n)
	}
	fits := strings.Repeat("ä", excelize.TotalCellChars)
	if book.cell(fits) != fits {
		t.Error("a text that fits is cut")
	}
}
