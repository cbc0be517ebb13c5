package quality

import (
	"context"
	"crypto/sha256"
	"fmt"
	"slices"
	"strings"
	"testing"

	"plumbline/queries"
)

// Every class that is raised has a label in the header of its kind.
func TestClassesAreInTheCatalogue(t *testing.T) {
	findings, err := Findings(context.Background(), openSmall(t), Filter{})
	if err != nil || len(findings) == 0 {
		t.Fatalf("%d findings, %v", len(findings), err)
	}
	for _, f := range findings {
		kind := queries.KindNamed(f.Kind)
		if f.Class == nil && kind.Classes == nil {
			continue
		}
		if !slices.ContainsFunc(kind.Classes, func(c queries.Class) bool { return c.Name == show(f.Class) }) {
			t.Errorf("%s: the class %q is not in the header", f.Kind, show(f.Class))
		}
	}
}

// An identifier is never made otherwise, or the decisions of years would hang in the air: the first 16 hexadecimal digits
// of the SHA-256 over the kind, the class where it identifies, and the keys, joined by the unit separator.
func TestIdentifiersStay(t *testing.T) {
	findings, err := Findings(context.Background(), openSmall(t), Filter{})
	if err != nil || len(findings) == 0 {
		t.Fatalf("%d findings, %v", len(findings), err)
	}
	identifying := []string{"missing_scan", "uncured_glass", "impossible_order", "overlapping_work", "equipment_overdue", "missing_document"}
	for _, f := range findings {
		class := ""
		if slices.Contains(identifying, f.Kind) {
			class = show(f.Class)
		}
		keys := strings.Join([]string{f.Kind, class, f.Shop, f.JobNo, show(f.System), show(f.Position), show(f.AttemptNo), show(f.Subject),
			show(f.PriorShop), show(f.PriorJobNo), show(f.PriorSystem), show(f.PriorPosition), show(f.PriorAttemptNo)}, "\x1f")
		if want := fmt.Sprintf("%x", sha256.Sum256([]byte(keys)))[:16]; f.Finding != want {
			t.Errorf("%q is called %s, expected %s", keys, f.Finding, want)
		}
	}
}
