package history

import (
	"context"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/queries"
)

// namesOf lists entries by name, sigils off.
func namesOf(entries []queries.Entry) []string {
	var names []string
	for _, entry := range entries {
		names = append(names, strings.TrimPrefix(entry.Name, "$"))
	}
	return names
}

// TestQueryHeadersCannotLie holds the header of every query against what the engine says of it: title, columns in
// order, parameters.
func TestQueryHeadersCannotLie(t *testing.T) {
	ctx := context.Background()
	h, err := InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	defer h.Close()
	if err := h.LookBack(ctx, Asked{}); err != nil {
		t.Fatal(err)
	}
	// what package check puts beside a history that it looks at
	err = h.Beside(ctx, "every_record", "select '' as kind, '' as name, 0::ubigint as key, 0 as from_file, "+
		"false as is_replaced, null::integer as replaced_by")
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, folder := range []string{"schema", "findings", "measures", "intake", "check"} {
		for _, name := range queries.List(folder) {
			text, err := queries.SQL(name)
			if err != nil {
				t.Fatal(err)
			}
			promised := queries.HeaderOf(text)
			if len(promised.Title) < 10 {
				t.Errorf("%s.sql does not open with a sentence that says what it is", name)
			}
			if (folder == "schema" && name < "schema/100") || strings.HasSuffix(name, "readings") && folder == "intake" {
				continue // files of many statements, that make tables and macros
			}
			checkHeader(t, h, name, text, promised)
			checked++
		}
	}
	if checked < 40 {
		t.Errorf("only %d queries were found", checked)
	}
}

var unevenJoin = regexp.MustCompile(`(?is)\b(?:anti|semi) join\b.*?(?:\bwhere\b|\bjoin\b|\bgroup by\b|\bunion\b|\bwindow\b|\n\)|$)`)

// TestSemiAndAntiJoinsMatchOnEqualityOnly guards against a defect of the engine (1.1.3): a semi or anti join whose
// condition holds an inequality beside equalities loses rows where several rows share the key. Large histories show it,
// small ones do not.
func TestSemiAndAntiJoinsMatchOnEqualityOnly(t *testing.T) {
	for _, folder := range []string{"schema", "findings", "measures", "intake", "check"} {
		for _, name := range queries.List(folder) {
			text, err := queries.SQL(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, join := range unevenJoin.FindAllString(text, -1) {
				if strings.ContainsAny(join, "<>") || strings.Contains(join, "between") {
					t.Errorf("%s.sql: %s", name, join)
				}
			}
		}
	}
}

func checkHeader(t *testing.T, h *History, name, text string, promised queries.Header) {
	ctx := context.Background()
	parameters, err := h.parameterNames(ctx, text)
	if err != nil {
		t.Errorf("%s.sql: %v", name, err)
		return
	}
	bound := namesOf(promised.Entries("Parameters"))
	slices.Sort(bound)
	if diff := cmp.Diff(bound, parameters); diff != "" && len(bound)+len(parameters) > 0 {
		t.Errorf("%s.sql: parameters in the header -, in the query +\n%s", name, diff)
	}
	if !promised.IsQuestion() {
		return
	}
	params := Params{}
	for _, parameter := range parameters {
		params[parameter] = nil
	}
	rows, err := h.Query(ctx, name, params)
	if err != nil {
		t.Errorf("%s.sql: %v", name, err)
		return
	}
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		t.Errorf("%s.sql: %v", name, err)
		return
	}
	if diff := cmp.Diff(namesOf(promised.Entries("Columns")), columns); diff != "" {
		t.Errorf("%s.sql: columns in the header -, in the result +\n%s", name, diff)
	}
}
