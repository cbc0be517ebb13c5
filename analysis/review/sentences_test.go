package review

import (
	"strings"
	"testing"
)

// A rate never stands without its n: every sentence that has a percentage also counts what it is of.
func TestSentencesCarryTheirNumbers(t *testing.T) {
	r := mustReview(t)
	said, err := r.month().Sentences()
	if err != nil {
		t.Fatal(err)
	}
	if len(said) != 3 {
		t.Fatalf("%d sentences, expected three: %q", len(said), said)
	}
	for _, sentence := range said {
		if strings.Contains(sentence, "%") && !strings.Contains(sentence, " of ") {
			t.Errorf("a rate without its n: %q", sentence)
		}
		if strings.Count(sentence, "%") > 0 && !strings.Contains(sentence, "interval") {
			t.Errorf("a rate without its uncertainty: %q", sentence)
		}
	}
}
