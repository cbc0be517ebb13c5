package policy

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"plumbline/analysis/history"
)

// A demand is one thing that a rule asks of one kind of job: a row of the view required_evidence.
type demand struct {
	Insurer *string  `json:"insurer"`
	System  *string  `json:"system"`
	Reason  *string  `json:"reason"`
	Source  *string  `json:"source"`
	What    string   `json:"what"`
	Subject *string  `json:"subject"`
	Amount  *float64 `json:"amount"`
}

// Require makes the policy the one that missing documents and completeness are judged by in this session, until another
// is set. Call it before LookBack, which settles the findings. It writes nothing into the history.
func (p Policy) Require(ctx context.Context, h *history.History) error {
	demands := []demand{}
	for _, rule := range p.Rules {
		for _, jobs := range rule.selections() {
			for _, d := range rule.demands() {
				d.Insurer, d.System, d.Reason, d.Source = jobs.Insurer, jobs.System, jobs.Reason, jobs.Source
				demands = append(demands, d)
			}
		}
	}
	rules, err := json.Marshal(demands)
	if err != nil {
		return fmt.Errorf("policy %s: %w", p.Name, err)
	}
	return h.Set(ctx, "measures/audit_require", history.Params{"rules": string(rules)})
}

// demands lists what the rule asks for, in a fixed order.
func (r Rule) demands() []demand {
	var list []demand
	add := func(what, subject string, amount float64) {
		d := demand{What: what}
		if subject != "" {
			d.Subject = &subject
		}
		if amount > 0 {
			d.Amount = &amount
		}
		list = append(list, d)
	}
	for _, kind := range sortedKeys(r.Documents, func(w documentWord) string { return w.string }) {
		add("document", kind.string, float64(r.Documents[kind]))
	}
	for _, stage := range r.Scans {
		add("scan", stage.string, 0)
	}
	for _, quantity := range r.Measurements {
		add("measurement", quantity.string, 0)
	}
	for _, order := range r.Sequence {
		add("sequence", order.string, 0)
	}
	for _, limit := range sortedKeys(r.Hours, func(w limitWord) string { return w.string }) {
		add("time_limit", limit.string, r.Hours[limit])
	}
	if r.RoadTest {
		add("road_test", "", 0)
	}
	if r.EquipmentVerified {
		add("equipment_verified", "", 0)
	}
	if r.ProcedureNamed {
		add("procedure_named", "", 0)
	}
	return list
}

// selections lists every combination of insurer, system, reason and source that the rule names.
func (r Rule) selections() []demand {
	list := []demand{{}}
	list = each(list, r.Insurer, func(d *demand, w insurerName) { d.Insurer = &w.string })
	list = each(list, r.System, func(d *demand, w systemWord) { d.System = &w.string })
	list = each(list, r.Reason, func(d *demand, w reasonWord) { d.Reason = &w.string })
	return each(list, r.Source, func(d *demand, w sourceWord) { d.Source = &w.string })
}

// each multiplies the list by the words; no word leaves it as it is, which means any.
func each[W any](list []demand, words []W, set func(*demand, W)) []demand {
	if len(words) == 0 {
		return list
	}
	var multiplied []demand
	for _, d := range list {
		for _, w := range words {
			set(&d, w)
			multiplied = append(multiplied, d)
		}
	}
	return multiplied
}

func sortedKeys[K comparable, V any](m map[K]V, name func(K) string) []K {
	return slices.SortedFunc(maps.Keys(m), func(a, b K) int { return cmp.Compare(name(a), name(b)) })
}

func orEmpty(s *string) string {
	if s == nil {
		return ""
	}
	return *s
}
