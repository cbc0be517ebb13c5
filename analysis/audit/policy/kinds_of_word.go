package policy

import (
	"encoding"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"plumbline/queries"
)

// A wordError is a word of a policy that is not in its list. Its text is the detail and, in a second line, the remedy:
// the TOML reader passes only text on.
type wordError struct {
	text, list string
	allowed    []string
}

func (e *wordError) Error() string {
	return fmt.Sprintf("%q is not a %s\nwrite one of %s", e.text, e.list, strings.Join(e.allowed, ", "))
}

// The words that a policy can hold; each type refuses what is not in its list. They are no plain strings, for those the
// TOML reader fills without asking.
type (
	systemWord   struct{ string }
	reasonWord   struct{ string }
	sourceWord   struct{ string }
	stageWord    struct{ string }
	documentWord struct{ string }
	quantityWord struct{ string }
	sequenceWord struct{ string }
	limitWord    struct{ string }
)

var (
	sequences = []string{"pre_scan_before", "post_scan_after", "road_test_between"}
	limits    = []string{"pre_scan", "post_scan", "documents"}
)

func (w *systemWord) UnmarshalText(t []byte) error {
	return read(&w.string, "system", queries.Words("system_word"), t)
}
func (w *reasonWord) UnmarshalText(t []byte) error {
	return read(&w.string, "reason", queries.Words("reason_word"), t)
}
func (w *sourceWord) UnmarshalText(t []byte) error {
	return read(&w.string, "glass source", queries.Words("glass_source_word"), t)
}
func (w *documentWord) UnmarshalText(t []byte) error {
	return read(&w.string, "kind of document", queries.Words("document_word"), t)
}
func (w *quantityWord) UnmarshalText(t []byte) error {
	return read(&w.string, "quantity", queries.Words("quantity_word"), t)
}
func (w *sequenceWord) UnmarshalText(t []byte) error {
	return read(&w.string, "sequence", sequences, t)
}
func (w *limitWord) UnmarshalText(t []byte) error { return read(&w.string, "time limit", limits, t) }

// Interim scans are taken as the work needs them; nobody asks for one.
func (w *stageWord) UnmarshalText(t []byte) error {
	return read(&w.string, "scan", []string{"pre", "post"}, t)
}

// insurerName is any text.
type insurerName struct{ string }

func (n *insurerName) UnmarshalText(t []byte) error {
	n.string = strings.TrimSpace(string(t))
	return nil
}

// read checks that text is one of the listed words and takes it in the layout's spelling: without regard to case,
// spaces and hyphens counting as underscores.
func read(into *string, list string, allowed []string, text []byte) error {
	w := strings.NewReplacer(" ", "_", "-", "_").Replace(strings.ToLower(strings.TrimSpace(string(text))))
	if !slices.Contains(allowed, w) {
		return &wordError{string(text), list, allowed}
	}
	*into = w
	return nil
}

// oneOrMore is a list that may be written as a single word.
type oneOrMore[W any, P interface {
	*W
	encoding.TextUnmarshaler
}] []W

// UnmarshalText takes a single word.
func (l *oneOrMore[W, P]) UnmarshalText(text []byte) error {
	var w W
	if err := P(&w).UnmarshalText(text); err != nil {
		return err
	}
	*l = oneOrMore[W, P]{w}
	return nil
}

// ruleKeys lists the keys of a rule in the order of the struct.
func ruleKeys() []string {
	var keys []string
	rule := reflect.TypeFor[Rule]()
	for i := range rule.NumField() {
		keys = append(keys, rule.Field(i).Tag.Get("toml"))
	}
	return keys
}

// check refuses numbers that ask for nothing, and a rule that asks for nothing at all.
func (p Policy) check(name string, source []byte) error {
	if len(p.Rules) == 0 {
		return &Error{name, 0, "the policy asks for nothing", "write at least one [[require]]"}
	}
	for i, rule := range p.Rules {
		for kind, n := range rule.Documents {
			if n < 1 {
				return &Error{name, lineOf(source, kind.string),
					fmt.Sprintf("%s = %d asks for nothing", kind.string, n), "write 1 or more, or leave it out"}
			}
		}
		for limit, hours := range rule.Hours {
			if !(hours > 0) {
				return &Error{name, lineOf(source, limit.string),
					fmt.Sprintf("a limit of %v hours can never be kept", hours), "write a number above 0, or leave it out"}
			}
		}
		if len(rule.demands()) == 0 {
			return &Error{name, ruleLine(source, i), "this rule asks for nothing",
				"name what it asks for: " + strings.Join(ruleKeys()[4:], ", ")}
		}
	}
	return nil
}

// ruleLine is the line of the i-th [[require]].
func ruleLine(source []byte, i int) int {
	lines := strings.Split(string(source), "\n")
	return 1 + slices.IndexFunc(lines, func(line string) bool {
		if strings.HasPrefix(strings.TrimSpace(line), "[[require]]") {
			i--
		}
		return i < 0
	})
}
