package policy

import (
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// For gives the policy as one insurer may read it. Where it has rules for other insurers, or its text names one of those
// given, it is written anew: the rules that can ask something of this insurer's jobs, and no words beside them.
func (p Policy) For(insurer string, others []string) (Policy, error) {
	narrowed := Policy{Name: p.Name}
	isAnothers := names(string(p.Text), others)
	for _, rule := range p.Rules {
		if len(rule.Insurer) == 0 {
			narrowed.Rules = append(narrowed.Rules, rule)
			continue
		}
		own := slices.DeleteFunc(slices.Clone(rule.Insurer), func(n insurerName) bool { return !strings.EqualFold(n.string, insurer) })
		isAnothers = isAnothers || len(own) < len(rule.Insurer)
		if rule.Insurer = own; len(own) > 0 {
			narrowed.Rules = append(narrowed.Rules, rule)
		}
	}
	if !isAnothers {
		return p, nil
	}
	if names(p.Name, others) {
		narrowed.Name = "policy for " + insurer
	}
	rules, err := narrowed.toml()
	if err != nil {
		return Policy{}, fmt.Errorf("policy %s: %w", p.Name, err)
	}
	narrowed.Text = rules
	return narrowed, nil
}

// names says whether a text names one of those given, without regard to case.
func names(text string, those []string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(those, func(name string) bool { return strings.Contains(text, strings.ToLower(name)) })
}

// toml writes the policy in the form that Read takes.
func (p Policy) toml() ([]byte, error) {
	type written struct {
		Insurer           []string           `toml:"insurer,omitempty"`
		System            []string           `toml:"system,omitempty"`
		Reason            []string           `toml:"reason,omitempty"`
		Source            []string           `toml:"source,omitempty"`
		Scans             []string           `toml:"scans,omitempty"`
		Documents         map[string]int     `toml:"documents,inline,omitempty"`
		RoadTest          bool               `toml:"road_test,omitempty"`
		Measurements      []string           `toml:"measurements,omitempty"`
		EquipmentVerified bool               `toml:"equipment_verified,omitempty"`
		ProcedureNamed    bool               `toml:"procedure_named,omitempty"`
		Sequence          []string           `toml:"sequence,omitempty"`
		Hours             map[string]float64 `toml:"hours,inline,omitempty"`
	}
	var out struct {
		Name  string    `toml:"name"`
		Rules []written `toml:"require"`
	}
	out.Name = p.Name
	for _, r := range p.Rules {
		w := written{RoadTest: r.RoadTest, EquipmentVerified: r.EquipmentVerified, ProcedureNamed: r.ProcedureNamed}
		w.Insurer = plain(r.Insurer, func(n insurerName) string { return n.string })
		w.System = plain(r.System, func(n systemWord) string { return n.string })
		w.Reason = plain(r.Reason, func(n reasonWord) string { return n.string })
		w.Source = plain(r.Source, func(n sourceWord) string { return n.string })
		w.Scans = plain(r.Scans, func(n stageWord) string { return n.string })
		w.Measurements = plain(r.Measurements, func(n quantityWord) string { return n.string })
		w.Sequence = plain(r.Sequence, func(n sequenceWord) string { return n.string })
		for kind, n := range r.Documents {
			w.Documents = put(w.Documents, kind.string, n)
		}
		for limit, hours := range r.Hours {
			w.Hours = put(w.Hours, limit.string, hours)
		}
		out.Rules = append(out.Rules, w)
	}
	text, err := toml.Marshal(out)
	return append([]byte("# The rules of the policy that can ask something of this insurer's jobs; those for others are left out.\n"), text...), err
}

func plain[W any](words []W, name func(W) string) []string {
	var list []string
	for _, w := range words {
		list = append(list, name(w))
	}
	return list
}

func put[V any](m map[string]V, name string, value V) map[string]V {
	if m == nil {
		m = map[string]V{}
	}
	m[name] = value
	return m
}
