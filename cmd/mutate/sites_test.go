package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// changes applies every site that is found, each alone, and gives the line that it changed.
func changes(t *testing.T, text string, find func([]byte) ([]site, error)) []string {
	t.Helper()
	found, err := find([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	before := strings.Split(text, "\n")
	var changed []string
	for _, s := range found {
		for i, line := range strings.Split(string(s.apply([]byte(text))), "\n") {
			if line != before[i] {
				changed = append(changed, strings.TrimSpace(line))
			}
		}
	}
	return changed
}

func TestSitesInGo(t *testing.T) {
	const text = `package p
import "math"
type row struct { n int ` + "`db:\"1\"`" + ` }
func f(a, b int) bool {
	for !done() {
		a++
		if a < b && "x"+"y" != s { break }
	}
	note(a)
	return a*b >= 7
}`
	want := []string{
		"for done() {", "a--", `if a <= b && "x"+"y" != s { break }`, `if a < b || "x"+"y" != s { break }`,
		`if a < b && "x"+"y" != s { continue }`, "", "return a/b >= 7", "return a*b > 7", "return a*b >= 8",
	}
	got := changes(t, text, inGo)
	less := func(a, b string) bool { return a < b }
	if diff := cmp.Diff(sorted(want, less), sorted(got, less)); diff != "" {
		t.Error(diff)
	}
	if _, err := inGo([]byte("package")); err == nil {
		t.Error("what is no Go passes")
	}
}

func TestSitesInSQL(t *testing.T) {
	const text = `-- and 5 > 3 or not
select min(n) as "or", 'a = 1', coalesce(x, 2.5) from t
left join u using (id) where day between 1 and n and n <> $or -- and
order by n desc nulls last`
	want := []string{
		`select max(n) as "or", 'a = 1', coalesce(x, 2.5) from t`, `select min(n) as "or", 'a = 1', nullif(x, 2.5) from t`,
		"join u using (id) where day between 1 and n and n <> $or -- and",
		"left join u using (id) where day between 2 and n and n <> $or -- and",
		"left join u using (id) where day between 1 and n or n <> $or -- and",
		"left join u using (id) where day between 1 and n and n = $or -- and",
		"order by n asc nulls last", "order by n desc nulls first",
	}
	if diff := cmp.Diff(want, changes(t, text, inSQL)); diff != "" {
		t.Error(diff)
	}
}

// The same seed draws the same; queries and Go have equal shares for as long as both last.
func TestDraw(t *testing.T) {
	var sites []site
	for i := range 40 {
		sites = append(sites, site{file: fmt.Sprint(i, ".go")})
	}
	sites = append(sites, site{file: "a.sql"}, site{file: "b.sql"})
	drawn := draw(sites, 6, 9)
	queries := 0
	for _, s := range drawn {
		if strings.HasSuffix(s.file, ".sql") {
			queries++
		}
	}
	if len(drawn) != 6 || queries != 2 {
		t.Errorf("drawn are %v", drawn)
	}
	same := cmp.AllowUnexported(site{})
	if diff := cmp.Diff(drawn, draw(sites, 6, 9), same); diff != "" {
		t.Errorf("the same seed draws others: %s", diff)
	}
	if cmp.Equal(drawn, draw(sites, 6, 10), same) {
		t.Error("another seed draws the same")
	}
	if all := draw(sites, 100, 9); len(all) != len(sites) {
		t.Errorf("%d of %d drawn", len(all), len(sites))
	}
}
