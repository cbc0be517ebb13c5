package queries

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// readKind reads a kind of finding off the header of its file. The error names the file and everything that is wrong.
func readKind(name, text string) (Kind, error) {
	h := HeaderOf(text)
	told := map[string]string{}
	for _, entry := range h.Entries("Finding") {
		told[entry.Name] = entry.Text
	}
	k := Kind{Name: name, Title: told["name"], Means: told["means"], Rule: told["rule"], Source: h.parts["Source"].text,
		ClassIdentifies: told["identity"] == "keys and class"}
	wrong := []error{k.readPlaces(told["page"])}
	for what, said := range map[string]string{"name": k.Title, "means": k.Means, "rule": k.Rule, "Source": k.Source} {
		if said == "" {
			wrong = append(wrong, fmt.Errorf("the header has no %s", what))
		}
	}
	if identity := told["identity"]; identity != "keys" && identity != "keys and class" {
		wrong = append(wrong, fmt.Errorf("identity %q is neither keys nor keys and class", identity))
	}
	k.Classes = readClasses(h.Entries("Classes"))
	if hasClass := slices.ContainsFunc(h.Entries("Columns"), func(c Entry) bool { return c.Name == "class" }); hasClass != (k.Classes != nil) ||
		k.ClassIdentifies && !hasClass {
		wrong = append(wrong, errors.New("the column class, its classes and the identity do not go together"))
	}
	wrong = append(wrong, k.readSeverities(told["severity"]), k.readDecisions(h.Entries("Decide")))
	if err := errors.Join(wrong...); err != nil {
		return k, fmt.Errorf("findings/%s.sql: %w", name, err)
	}
	return k, nil
}

// readPlaces reads "evidence 50, repeats 40, told as a share of jobs".
func (k *Kind) readPlaces(text string) error {
	text, k.IsShare = strings.CutSuffix(text, ", told as a share of jobs")
	for place := range strings.SplitSeq(text, ", ") {
		page, number, _ := strings.Cut(place, " ")
		at, err := strconv.Atoi(number)
		if err != nil || page == "" || at < 1 {
			return fmt.Errorf("page %q is no page and place", text)
		}
		k.Places = append(k.Places, Place{page, at})
	}
	return nil
}

// readClasses reads "tenfold  decimal point (by 10)": what is in brackets explains and is no part of the title. The name
// of a word list stands for its words.
func readClasses(entries []Entry) []Class {
	var classes []Class
	for _, entry := range entries {
		if words := Words(entry.Name); words != nil {
			for _, word := range words {
				classes = append(classes, Class{word, strings.ReplaceAll(word, "_", " ")})
			}
			continue
		}
		title, _, _ := strings.Cut(entry.Text, " (")
		classes = append(classes, Class{entry.Name, title})
	}
	return classes
}

var severityWords = []string{"high", "medium", "low"}

// readSeverities reads "high where class is driven; else medium", or one word for all.
func (k *Kind) readSeverities(text string) error {
	clauses := strings.Split(text, "; ")
	for i, clause := range clauses {
		isLast := i == len(clauses)-1
		if isLast && i > 0 {
			var isElse bool
			if clause, isElse = strings.CutPrefix(clause, "else "); !isElse {
				return fmt.Errorf("severity %q does not end in else", text)
			}
		}
		word, condition, _ := strings.Cut(clause, " ")
		when, err := readCondition(condition, k.Classes)
		if err != nil || !slices.Contains(severityWords, word) || isLast != (condition == "") {
			return fmt.Errorf("severity %q cannot be read at %q", text, clause)
		}
		k.Severities = append(k.Severities, Severity{word, when})
	}
	return nil
}

var decisionText = regexp.MustCompile(`^(?:(where [a-z0-9_, ]+): )?(.+?)(?:\.|(\?)) (.+)$`)

// readDecisions reads "10  where class is driven: Driven too early. Why a person must look at it.": the first sentence
// is the heading.
func (k *Kind) readDecisions(entries []Entry) error {
	for _, entry := range entries {
		rank, err := strconv.Atoi(entry.Name)
		found := decisionText.FindStringSubmatch(entry.Text)
		if err != nil || found == nil {
			return fmt.Errorf("decide %q cannot be read", entry.Name+" "+entry.Text)
		}
		when, err := readCondition(found[1], k.Classes)
		if err != nil {
			return err
		}
		k.Decisions = append(k.Decisions, Decision{rank, when, found[2] + found[3], found[4]})
	}
	return nil
}
