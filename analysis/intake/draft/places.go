package draft

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

// A variant is a way to read a header: what it is about, and the rest of it by which the column is known.
type variant struct {
	place string // pre or post of a scan; a system of a calibration, with "first " before it for a first attempt
	rest  string // letters and digits
}

func (v variant) isStage() bool { return v.place == "pre" || v.place == "post" }

var (
	preWords   = spoken.Pre
	postWords  = spoken.Post
	firstWords = spoken.First
	sideOf     = regexp.MustCompile(`(?i)[ ,]+(L|R|LH|RH|left|right)$`)
)

func tokensOf(text string) []string {
	return strings.Fields(notAlphanumeric.ReplaceAllString(plain(text), " "))
}

// variantsOf reads a header by itself and with the group that stands above it.
func variantsOf(header, group string) []variant {
	variants := []variant{{"", bareName(header)}}
	if group != "" {
		variants = append(variants, variant{"", bareName(group + header)})
	}
	tokens, above := tokensOf(header), tokensOf(group)
	for _, stage := range []string{"pre", "post"} {
		words := preWords
		if stage == "post" {
			words = postWords
		}
		switch {
		case slices.ContainsFunc(tokens, in(words)):
			variants = append(variants, variant{stage, without(tokens, words)})
		case slices.ContainsFunc(above, in(words)):
			variants = append(variants, variant{stage, bareName(header)})
		}
	}
	isFirst := slices.ContainsFunc(tokens, in(firstWords)) || slices.ContainsFunc(above, in(firstWords))
	rest := without(tokens, firstWords)
	system, named := systemIn(header), true
	if system.word == "" {
		system, named = systemIn(group), false
	}
	switch {
	case isFirst:
		return append(variants[:0], variant{strings.TrimSpace("first " + system.word), strings.ReplaceAll(rest, system.bare, "")})
	case system.word != "" && named:
		variants = append(variants, variant{system.word, strings.Replace(bareName(header), system.bare, "", 1)})
	case system.word != "":
		variants = append(variants, variant{system.word, bareName(header)})
	}
	return variants
}

func in(words []string) func(string) bool {
	return func(token string) bool { return slices.Contains(words, token) }
}

func without(tokens, words []string) string {
	rest := ""
	for _, token := range tokens {
		if !slices.Contains(words, token) {
			rest += token
		} else if strings.HasSuffix(token, "scan") {
			rest += "scan"
		}
	}
	return rest
}

type namedSystem struct{ word, bare string }

// A systemName is a way to name a system in a header.
type systemName struct{ word, bare, tokens string }

// systemNames are all ways to name the systems.
var systemNames = allSystemNames()

func allSystemNames() []systemName {
	var all []systemName
	add := func(name, word string) {
		all = append(all, systemName{word, bareName(name), " " + strings.Join(tokensOf(name), " ") + " "})
	}
	for _, word := range layout.KindNamed("calibrations").Column("system").Words {
		if word != "other" {
			add(strings.ReplaceAll(word, "_", " "), word)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(spoken.Words["system"])) {
		add(name, spoken.Words["system"][name])
	}
	return all
}

// systemIn finds the system that a header speaks of by its longest name.
func systemIn(text string) namedSystem {
	var best namedSystem
	tokens := " " + strings.Join(tokensOf(text), " ") + " "
	for _, name := range systemNames {
		if len(name.bare) > len(best.bare) && strings.Contains(tokens, name.tokens) {
			best = namedSystem{name.word, name.bare}
		}
	}
	return best
}

// score says how well a column suits the target, in the best of its readings, and which place that is of.
func (t target) score(variants []variant, values []string) (float64, string) {
	best, place := 0.0, ""
	ofScan := t.kind == "scans" || t.kind == "faults"
	if ofScan && slices.ContainsFunc(variants, variant.isStage) {
		variants = slices.DeleteFunc(slices.Clone(variants), func(v variant) bool { return !v.isStage() })
	}
	for _, v := range variants {
		isStage := v.isStage()
		if isStage && !ofScan || v.place != "" && !isStage && t.kind != "calibrations" {
			continue
		}
		if ofScan && !isStage && t.field == "scanned_at" && v.rest == "date" {
			continue // any date is
		}
		byName := t.nameScore(v.rest)
		if v.place != "" && !isStage {
			byName = max(byName, t.placedScore(v.rest))
		}
		if byName <= best {
			continue // the values can only take from it
		}
		if score := byName * t.valueScore(values); score > best {
			best, place = score, v.place
		}
	}
	return best, place
}

// placedScore knows the names that say enough below a system's: its date, or its name alone over the results.
func (t target) placedScore(rest string) float64 {
	switch {
	case t.field == "started_at" && slices.Contains([]string{"date", "at", "on", "time", "when", "calibrated", "cal"}, rest):
		return 0.85
	case t.field == "outcome" && slices.Contains([]string{"", "ok", "status", "cal", "calibration", "calibrated"}, rest):
		return 0.75
	}
	return 0
}
