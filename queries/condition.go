package queries

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// A Condition picks some findings of a kind. The zero value picks all.
type Condition struct {
	Classes   []string // the class is one of them
	HasSystem bool     // a system is named
}

var conditionText = regexp.MustCompile(`^where (?:class is ([a-z0-9_]+(?:(?:, | or )[a-z0-9_]+)*)|(system is present))$`)

// readCondition reads "where class is linked or probable", "where system is present", or nothing.
func readCondition(text string, classes []Class) (Condition, error) {
	if text == "" {
		return Condition{}, nil
	}
	found := conditionText.FindStringSubmatch(text)
	if found == nil {
		return Condition{}, fmt.Errorf("%q is no condition", text)
	}
	if found[2] != "" {
		return Condition{HasSystem: true}, nil
	}
	c := Condition{Classes: strings.Split(strings.ReplaceAll(found[1], " or ", ", "), ", ")}
	for _, name := range c.Classes {
		if !slices.ContainsFunc(classes, func(known Class) bool { return known.Name == name }) {
			return c, fmt.Errorf("there is no class %q", name)
		}
	}
	return c, nil
}

// Holds tells whether a finding with this class and system is picked; empty is missing.
func (c Condition) Holds(class, system string) bool {
	return (c.Classes == nil || slices.Contains(c.Classes, class)) && (!c.HasSystem || system != "")
}

// sql is the condition over the columns of a finding.
func (c Condition) sql() string {
	switch {
	case c.HasSystem:
		return "system is not null"
	case c.Classes == nil:
		return "true"
	default:
		return "class in ('" + strings.Join(c.Classes, "', '") + "')"
	}
}
