package policy

import (
	"fmt"
	"strings"
)

// A Plain is one rule of a policy in plain words: which jobs it is for, and what it asks of each.
type Plain struct {
	For  string
	Asks []string
}

// Plain says what the policy asks for, rule by rule.
func (p Policy) Plain() []Plain {
	var list []Plain
	for _, rule := range p.Rules {
		plain := Plain{For: rule.whichJobs()}
		for _, d := range rule.demands() {
			plain.Asks = append(plain.Asks, d.words())
		}
		list = append(list, plain)
	}
	return list
}

// Things lists what the policy asks for anywhere, each once, in the order of its rules.
func (p Policy) Things() []Lack {
	var list []Lack
	seen := map[Lack]bool{}
	for _, rule := range p.Rules {
		for _, d := range rule.demands() {
			thing := Lack{What: d.What, Subject: orEmpty(d.Subject)}
			if !seen[thing] {
				seen[thing] = true
				list = append(list, thing)
			}
		}
	}
	return list
}

func (r Rule) whichJobs() string {
	text := "Every closed job with a calibration"
	if len(r.System) > 0 {
		text += " of " + either(plain(r.System, func(w systemWord) string { return w.string }))
	}
	if len(r.Insurer) > 0 {
		text += ", paid for by " + either(plain(r.Insurer, func(n insurerName) string { return n.string }))
	}
	if len(r.Reason) > 0 {
		text += ", where the vehicle came for " + either(plain(r.Reason, func(w reasonWord) string { return w.string }))
	}
	if len(r.Source) > 0 {
		text += ", with a windshield whose source is " + either(plain(r.Source, func(w sourceWord) string { return w.string }))
	}
	return text
}

// either joins words of the layout as people write them.
func either(words []string) string {
	for i, word := range words {
		words[i] = strings.ReplaceAll(word, "_", " ")
	}
	if last := len(words) - 1; last > 0 {
		return strings.Join(words[:last], ", ") + " or " + words[last]
	}
	return words[0]
}

// limits in words; the hours come before.
var within = map[string]string{
	"pre_scan":  "from the pre-scan to the first attempt",
	"post_scan": "from the last completed attempt to the post-scan",
	"documents": "from closing to the last document",
}

// words say the demand as people read it, with its number.
func (d demand) words() string {
	text := Lack{What: d.What, Subject: orEmpty(d.Subject)}.Words()
	switch {
	case d.What == "time_limit":
		return fmt.Sprintf("At most %g h %s", *d.Amount, within[*d.Subject])
	case d.What == "document" && *d.Amount > 1:
		return fmt.Sprintf("%s, at least %g", text, *d.Amount)
	}
	return text
}
