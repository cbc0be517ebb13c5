package record

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"plumbline/analysis/testkit"
)

func TestNeutralCellsCanBeUndone(t *testing.T) {
	for _, text := range testkit.Nasty {
		got := Neutral(text)
		if Restored(got) != text {
			t.Errorf("%q becomes %q, which gives %q back", text, got, Restored(got))
		}
		if got != "" && strings.ContainsRune("=+-@\t＝＋－＠", []rune(got)[0]) {
			t.Errorf("%q stays %q, which a spreadsheet may run", text, got)
		}
	}
}

func TestSafeNames(t *testing.T) {
	seen := map[string]string{}
	for _, text := range testkit.Nasty {
		name := SafeName(text)
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
	if got := SafeName("ok-name_1.pdf"); got != "ok-name_1.pdf" {
		t.Errorf("a plain name becomes %q", got)
	}
}

func TestVisible(t *testing.T) {
	if got := Visible("a\u202eb\x07\n\U0001F468\u200d\U0001F527"); got != "a[U+202E]b[U+0007]\n\U0001F468\u200d\U0001F527" {
		t.Errorf("%q", got)
	}
}

func TestFields(t *testing.T) {
	for want, value := range map[string]any{
		"": nil, "'=x": "=x", "-3": int64(-3), "0.1": 0.1, "1500000000000": 1.5e12, "2026-01-05 08:00:00": time.Date(2026, 1, 5, 8, 0, 0, 0, time.UTC),
		"2026-01-05 08:00:00.25": time.Date(2026, 1, 5, 8, 0, 0, 250e6, time.UTC),
	} {
		if got := Field(value); got != want {
			t.Errorf("%v is written %q, want %q", value, got, want)
		}
	}
}
