package intake

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// A large file with few rows at fault is taken directly but for those; what comes of it is what comes of staging the
// whole file, which an import with a zone does.
func TestRestOfADirectImport(t *testing.T) {
	odd := map[string]string{
		"nothing odd":          "",
		"a value at fault":     "a,900,2026-13-09,recheck,,,,\n",
		"the same twice":       "a,900,2026-13-09,recheck,,,,\na,900,2026-13-09,recheck,,,,\n",
		"too few fields":       "a,900,2026-03-09\n",
		"too many fields":      "a,900,2026-03-09,recheck,,,,,x\n",
		"surplus blank fields": "a,900,2026-03-09,recheck,,,,, ,\n",
		"text after a quote":   "\"a\"b,900,2026-03-09,recheck,,,,\n",
		"blank lines":          "\n,,,,,,,\n \n",
		"a line break":         "a,\"90\n0\",2026-03-09,recheck,,,,\n",
		"a break at fault":     "a,\"90\n0\",x,recheck,,,,\n\na,901,y,recheck,,,,\n",
		"a key twice":          "a,1,2026-03-10,recheck,,,,\n",
		"a key twice at fault": "a,1,x,recheck,,,,\n",
		"quotes and blanks":    "\"a\", \"900\",2026-03-09,recheck,,,,\na,\"\"\"901\"\"\", x,recheck,,,,\n",
	}
	for name, lines := range odd {
		t.Run(name, func(t *testing.T) {
			content := jobsHeader
			for i := range 300 {
				content += fmt.Sprintf("a,%d,2026-03-09 10:00,recheck,,%d,,\n", i+1, i)
				if i == 150 {
					content += lines
				}
			}
			path := write(t, "jobs.csv", strings.TrimSuffix(content, "\n"))
			outcome := func(zone string) []any {
				h := emptyHistory(t)
				result := imported(t, h, Options{Files: []string{path}, Zone: zone})
				return []any{result.Files, faultLines(t, h), contents(t, h)["jobs"]}
			}
			if diff := cmp.Diff(outcome("UTC"), outcome("")); diff != "" {
				t.Error(diff)
			}
		})
	}
}
