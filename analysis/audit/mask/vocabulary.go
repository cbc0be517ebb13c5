package mask

import (
	"context"
	"slices"
	"strings"

	"plumbline/analysis/history"
)

// holder is a value that has a form, and the shop whose technician it names; a VIN or claim number has no shop.
type holder struct {
	field       Field
	shop, value string
	part        partOf
	shape       shape
	isOwn       bool // of the job whose text is looked at
}

// jobNumber is the field of what stays as it is. A code within a job's number must not be masked where a text repeats the
// number: beside the number itself, which every row shows, the token would give the code away.
const jobNumber Field = "job"

// vocabulary is all values to look for, by their forms.
type vocabulary struct {
	forms   map[string][]holder
	longest int // of the forms, atoms
}

// Learn reads from the history what is to be looked for.
func (m *Masker) Learn(ctx context.Context, h *history.History) error {
	if len(m.fields) == 0 {
		return nil
	}
	names := []string{string(jobNumber)}
	for _, field := range m.fields {
		names = append(names, string(field))
	}
	type valueRow struct {
		Field, Value string
		Shop         *string
	}
	rows, err := history.Select[valueRow](ctx, h, "measures/audit_sought",
		history.Params{"fields": strings.Join(names, ",")})
	if err != nil {
		return err
	}
	for _, row := range rows {
		shop := ""
		if row.Shop != nil {
			shop = *row.Shop
		}
		m.everywhere.add(Field(row.Field), shop, row.Value)
	}
	return nil
}

// add takes a value in. A technician's code that could be any word is taken in too, so that the texts that hold it can be
// told of; VINs and claim numbers of that kind count in their own job only, for there are too many of them.
func (v *vocabulary) add(field Field, shop, value string) {
	if isLayoutWord(value) {
		return
	}
	if field == jobNumber {
		v.put(skeleton(value), holder{field: field, value: value})
		return
	}
	for _, f := range formsOf(field, value) {
		if f.how == anywhere || field == Technician {
			v.put(f.text, holder{field, shop, value, f.part, f.how, false})
		}
	}
}

func (v *vocabulary) put(text string, h holder) {
	if text == "" || slices.Contains(v.forms[text], h) {
		return
	}
	v.forms[text] = append(v.forms[text], h)
	v.longest = max(v.longest, len([]rune(text)))
}

// ownForm is a VIN or a claim number of the job itself: in its own texts it is at home.
type ownForm struct {
	text []rune
	holder
}

func ownValue(field Field, value string) ownForm {
	how := shapeOf(field, value)
	if how == ownNumber {
		how = anywhere
	}
	return ownForm{[]rune(skeleton(value)), holder{field: field, value: value, shape: how, isOwn: true}}
}
