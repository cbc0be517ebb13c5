package intake

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
)

var notLetters = regexp.MustCompile(`[^a-z]+`)

// kindFromName finds the one kind that a file's or sheet's name speaks of: jobs.csv, 2026-03_jobs.csv, Road Tests.
func kindFromName(name string) *Kind {
	words := "_" + strings.Trim(notLetters.ReplaceAllString(strings.ToLower(name), "_"), "_") + "_"
	var found *Kind
	for i := range Kinds {
		if !strings.Contains(words, "_"+Kinds[i].Name+"_") {
			continue
		}
		if found != nil {
			return nil
		}
		found = &Kinds[i]
	}
	return found
}

// kindsFromHeader lists the kinds whose required columns all stand in the header, only those that know most of it.
func kindsFromHeader(header []string) []*Kind {
	var fitting []*Kind
	most := 0
	for i := range Kinds {
		known := knownColumns(&Kinds[i], header)
		switch {
		case known < most || known == 0:
		case known > most:
			most, fitting = known, []*Kind{&Kinds[i]}
		default:
			fitting = append(fitting, &Kinds[i])
		}
	}
	return fitting
}

// knownColumns counts the header's columns that the kind has, 0 where a required one is not there.
func knownColumns(kind *Kind, header []string) int {
	known := 0
	for _, column := range kind.Columns {
		inHeader := slices.ContainsFunc(header, func(name string) bool { return plainName(name) == column.Name })
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
		if p.kind = KindNamed(plainName(given)); p.kind == nil {
			return fmt.Errorf("there is no kind %q; the kinds are %s", given, strings.Join(KindNames(), ", "))
		}
		return nil
	}
	if p.kind = kindFromName(p.baseName()); p.kind != nil {
		return nil
	}
	fitting := kindsFromHeader(p.header)
	if len(fitting) == 1 {
		p.kind = fitting[0]
		return nil
	}
	reason := "has a header that fits none of the kinds " + strings.Join(KindNames(), ", ")
	if len(fitting) > 1 {
		names := make([]string, len(fitting))
		for i, kind := range fitting {
			names[i] = kind.Name
		}
		reason = "could hold " + strings.Join(names, " or ")
	}
	return p.refuse(reason, "say what it holds with --kind, or describe it in a profile: plumbline profile "+p.file)
}

// baseName is the sheet's name, or the file's without folder and ending.
func (p *part) baseName() string {
	if p.sheet != "" {
		return p.sheet
	}
	base, _, _ := strings.Cut(filepath.Base(p.file), ".")
	return base
}
