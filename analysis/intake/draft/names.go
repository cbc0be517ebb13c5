package draft

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// A target is a column of the layout that a draft looks for, with the names that the trade gives it.
// The names are common practice, no source: letters and digits only, in lower case.
type target struct {
	kind, field string
	names       []string
	form        *regexp.Regexp // what its values look like; nil: any text
}

var (
	notAlphanumeric = regexp.MustCompile(`[^a-z0-9]+`)
	looksYear       = regexp.MustCompile(`^(19[89]|20[0-4])\d(\.0)?$`)
	looksFile       = regexp.MustCompile(`(?i)\.(pdf|jpe?g|png|docx?|xlsx?|csv|txt|html?)\b`)
	looksCount      = regexp.MustCompile(`^\d+ *(of|de|von|sur|/) *\d+$`)
	looksAmount     = regexp.MustCompile(`^[+-]?\d[\d.,'\x{00a0}\x{202f} ]*\s*[A-Za-z°%]*$`)
	looksOrdinal    = regexp.MustCompile(`(?i)^(#|no\.?|try|attempt|intento|essai|versuch)? *\d{1,2} *(st|nd|rd|th|\.|o|e|er)?$`)
)

// formOf is what the values of a column of the layout look like; nil: any text.
func formOf(kind, field string) *regexp.Regexp {
	switch field {
	case "vin":
		return source.LooksVIN
	case "model_year":
		return looksYear
	case "make_model":
		return regexp.MustCompile(`^\S+ \S+`)
	case "modules":
		return looksCount
	case "list", "code":
		return source.LooksCode
	case "file_name":
		return looksFile
	case "attempt_no":
		return looksOrdinal
	}
	column := layout.KindNamed(kind).Column(field)
	switch {
	case column == nil:
		return nil
	case column.IsMoment():
		return source.LooksDay
	case column.Type == layout.Number || column.Type == layout.Integer:
		return looksAmount
	}
	return nil
}

// targets are the columns that a draft looks for, in the layout's order.
var targets = allTargets()

func allTargets() []target {
	var all []target
	for _, name := range slices.Sorted(maps.Keys(spoken.Names)) {
		kind, field, _ := strings.Cut(name, ".")
		if layout.KindNamed(kind) == nil {
			panic(name + ": there is no such kind") // the files are our own, and tested
		}
		all = append(all, target{kind, field, spoken.Names[name], formOf(kind, field)})
	}
	order := layout.KindNames()
	slices.SortStableFunc(all, func(a, b target) int { return slices.Index(order, a.kind) - slices.Index(order, b.kind) })
	return all
}

// bareName is a header's letters and digits.
func bareName(name string) string { return notAlphanumeric.ReplaceAllString(plain(name), "") }

// nameScore says how sure a header's letters and digits alone make us, from 0 to 1.
func (t target) nameScore(bare string) float64 {
	if bare == strings.ReplaceAll(t.field, "_", "") {
		return 0.95
	}
	for i, name := range t.names {
		if bare == name {
			return max(0.8, 0.9-0.002*float64(i))
		}
	}
	for _, name := range t.names {
		if len(name) > 3 && strings.Contains(bare, name) {
			return 0.6
		}
	}
	return 0
}

// valueScore says how well the values suit: 1 where any text will do. Words that nobody knows do not speak against a
// column as much as other forms do.
func (t target) valueScore(values []string) float64 {
	if column := layout.KindNamed(t.kind).Column(t.field); column != nil && column.Type == layout.Word && len(values) > 0 {
		if t.field == "system" {
			values = itemsOf(values, separatorOf(values))
		}
		return 0.6 + 0.4*share(values, func(value string) bool {
			return wordFor(*column, sideOf.ReplaceAllString(value, "")) != ""
		})
	}
	switch {
	case t.form == nil:
		return 1
	case len(values) == 0:
		return 0.85 // the name is all there is
	case t.kind == "faults" && share(values, isNone) == 1:
		return 0.85 // no fault so far
	case t.kind == "faults" && share(values, t.form.MatchString) > 0:
		return share(values, func(value string) bool { return source.LooksCode.MatchString(value) || isNone(value) })
	case t.field == "vin":
		return share(values, source.LooksVINSpaced)
	}
	if column := layout.KindNamed(t.kind).Column(t.field); column != nil && column.IsMoment() {
		return max(share(values, t.form.MatchString), 0.9*share(values, looksTime.MatchString)) // a time belongs to a day beside it
	}
	return share(values, t.form.MatchString)
}
