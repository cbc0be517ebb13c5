package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"plumbline/analysis/layout"
)

var notLetters = regexp.MustCompile(`[^a-z]+`)

// kindFromName finds the one kind that a file's or sheet's name speaks of: jobs.csv, 2026-03_jobs.csv, Road Tests.
func kindFromName(name string) *layout.Kind {
	words := "_" + strings.Trim(notLetters.ReplaceAllString(strings.ToLower(name), "_"), "_") + "_"
	var found *layout.Kind
	for i := range layout.Kinds {
		if !strings.Contains(words, "_"+layout.Kinds[i].Name+"_") {
			continue
		}
		if found != nil {
			return nil
		}
		found = &layout.Kinds[i]
	}
	return found
}

// kindsFromHeader lists the kinds whose required columns all stand in the header, only those that know most of it.
func kindsFromHeader(header []string) []*layout.Kind {
	var fitting []*layout.Kind
	most := 0
	for i := range layout.Kinds {
		known := knownColumns(&layout.Kinds[i], header)
		switch {
		case known < most || known == 0:
		case known > most:
			most, fitting = known, []*layout.Kind{&layout.Kinds[i]}
		default:
			fitting = append(fitting, &layout.Kinds[i])
		}
	}
	return fitting
}

// knownColumns counts the header's columns that the kind has, 0 where a required one is not there.
func knownColumns(kind *layout.Kind, header []string) int {
	known := 0
	for _, column := range kind.Columns {
		inHeader := slices.ContainsFunc(header, func(name string) bool { return layout.PlainName(name) == column.Name })
		switch {
		case inHeader:
			known++
		case column.Required:
			return 0
		}
	}
	return known
}

// settleKind decides what a part holds: as the user says, else by its name, else by its header.
func (p *part) settleKind(given string) error {
	if given != "" {
		if p.kind = layout.KindNamed(layout.PlainName(given)); p.kind == nil {
			return fmt.Errorf("there is no kind %q; the kinds are %s", given, strings.Join(layout.KindNames(), ", "))
		}
		return nil
	}
	if p.kind = kindFromName(p.BaseName()); p.kind != nil {
		return nil
	}
	fitting := kindsFromHeader(p.Header)
	if len(fitting) == 1 {
		p.kind = fitting[0]
		return nil
	}
	reason := "has a header that fits none of the kinds " + strings.Join(layout.KindNames(), ", ")
	if len(fitting) > 1 {
		names := make([]string, len(fitting))
		for i, kind := range fitting {
			names[i] = kind.Name
		}
		reason = "could hold " + strings.Join(names, " or ")
	}
	return p.Refuse(reason, "say what it holds with --kind, or describe it in a profile: plumbline profile "+p.File)
}
