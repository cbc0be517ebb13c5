package draft

import (
	"fmt"
	"strings"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// meaningIn is what was said of a text: of the whole text before a part of it.
func meaningIn(words map[string]string, text string) (string, bool) {
	for word, meaning := range words {
		if !strings.HasPrefix(word, "~") && strings.EqualFold(word, text) {
			return meaning, true
		}
	}
	return meaningWithin(words, text)
}

func meaningWithin(words map[string]string, text string) (string, bool) {
	for word, meaning := range words {
		if part, ok := strings.CutPrefix(word, "~"); ok && strings.Contains(strings.ToLower(text), strings.ToLower(strings.TrimSpace(part))) {
			return meaning, true
		}
	}
	return "", false
}

// settleWords finds what the texts of a field mean: as answered, as the trade uses them, or else it asks.
func (d *drafting) settleWords(r *record, column layout.Column, p *planned) {
	told := d.said.wordsFor(r.key(column.Name))
	if p.follows != nil {
		for word, meaning := range d.said.wordsFor(*p.follows) {
			if _, own := told[word]; !own {
				told[word] = meaning
			}
		}
	}
	words := map[string]string{}
	for word, meaning := range p.Words {
		words[word] = meaning
	}
	for word, meaning := range told {
		if meaning == profile.None || column.Type == layout.Word || column.Type != layout.Word {
			words[word] = meaning
		}
	}
	if column.Type == layout.Word {
		if column.Name == "system" && r.each.Column != "" || column.Name == "system" {
			d.splitSide(r, p, told)
		}
		for _, one := range d.textsOf(r, p) {
			d.settleWord(r, column, p, one, told, words)
		}
	}
	if p.Words = nil; len(words) > 0 {
		p.Words = words
	}
}

// settleWord finds what one text means.
func (d *drafting) settleWord(r *record, column layout.Column, p *planned, one counted, told, words map[string]string) {
	if _, known := meaningIn(told, one.text); known || p.Otherwise != "" && one.text != "" && wordFor(column, one.text) == "" {
		return
	}
	if _, known := words[strings.ToLower(one.text)]; known {
		return
	}
	meaning := wordFor(column, one.text)
	if unit := unitNames[plain(one.text)]; meaning == "" && column.Name == "unit" {
		meaning = unit
	}
	switch {
	case one.text == "":
		// an empty cell is empty
	case meaning != "" && strings.EqualFold(meaning, layout.PlainName(one.text)):
	case meaning != "":
		words[one.text] = meaning
	case !column.Required && isNone(one.text):
		words[one.text] = profile.None
	default:
		question := fmt.Sprintf("What does %q mean in %s?", one.text, p.origin)
		choices := append(likeliest(column, one.text), profile.None)
		if column.Name == "outcome" && r.kind.Name == "calibrations" {
			choices = append(choices, "failed then completed")
		}
		key := r.key(column.Name)
		if p.follows != nil {
			key = *p.follows
		}
		if d.recordOf(key.kind, 1) != nil {
			key.n = 1 // what it means in one of a kind it means in all
		}
		d.ask(key.String()+": "+one.text, question, choices, nil, one.rows)
	}
}

// splitSide takes the side from behind a system's name, where a side stands there and in no column of its own.
func (d *drafting) splitSide(r *record, p *planned, told map[string]string) {
	if p.Extract != "" || len(p.pieces) != 1 {
		return
	}
	sided := false
	for _, one := range d.textsOf(r, p) {
		bare := sideOf.ReplaceAllString(one.text, "")
		_, known := meaningIn(told, one.text)
		_, bareKnown := meaningIn(told, bare)
		sided = sided || bare != one.text && !known && (bareKnown || wordFor(*r.kind.Column("system"), bare) != "")
	}
	position := r.fields["position"]
	if !sided || position != nil && position.given {
		return
	}
	side := *p
	side.Extract, side.Words, side.why, side.given = `(?i)(?:[ ,]+(L|R|LH|RH|left|right))?$`, map[string]string{"L": "left", "LH": "left", "R": "right", "RH": "right"}, "it stands behind the system's name", false
	r.fields["position"] = &side
	p.Extract = `(?i)^(.*?)(?:[ ,]+(?:L|R|LH|RH|left|right))?$`
}
