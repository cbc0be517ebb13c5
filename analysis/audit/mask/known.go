package mask

import (
	"context"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"plumbline/analysis/audit/policy"
	"plumbline/analysis/history"
)

// known is a value that is looked for in texts, in all its spellings.
type known struct {
	field   Field
	folded  []rune
	isOwn   bool // of the job whose text is looked at
	holders []holder
}

// jobNumber is the field of what stays as it is. A code within a job's number must not be masked where a text repeats the
// number: beside the number itself, which every row shows, the token would give the code away.
const jobNumber Field = "job"

// holder is one spelling of a value, and the shop whose technician it names; a VIN or claim number has no shop.
type holder struct {
	shop, value string
	shape       shape
}

// vocabulary is all values to look for, by the first word of each, folded; a value that begins with a sign stands under
// the sign.
type vocabulary map[string][]*known

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
func (v vocabulary) add(field Field, shop, value string) {
	who := holder{shop, value, shapeOf(field, value)}
	isNumber := field == VIN || field == Claim
	if policy.LayoutWords()[strings.ToLower(value)] || isNumber && who.shape < anywhere {
		return
	}
	name := folded(value)
	lead := string(name[:max(1, wordEnd(name, 0))])
	for _, k := range v[lead] {
		if k.field == field && slices.Equal(k.folded, name) {
			k.holders = append(k.holders, who)
			return
		}
	}
	v[lead] = append(v[lead], &known{field: field, folded: name, holders: []holder{who}})
}

// ownValue is a VIN or a claim number of the job itself.
func ownValue(field Field, value string) *known {
	who := holder{value: value, shape: shapeOf(field, value)}
	if who.shape == ownNumber {
		who.shape = anywhere // for here it is at home
	}
	return &known{field: field, folded: folded(value), isOwn: true, holders: []holder{who}}
}

// meant says who is meant where the value stands in a text of a shop: one of the shop's own, else of the only shop that
// has such a one. Where several others have, nobody can tell, and a holder of its own stands for it. No holder means
// that it may be an ordinary word.
func (k *known) meant(shop, written string) (who holder, isSure bool) {
	var possible, ours []holder
	for _, h := range k.holders {
		switch {
		case h.shape == anyWord,
			h.shape == ownNumber && h.shop != shop,
			h.shape == asWritten && norm.NFC.String(h.value) != written:
			continue
		}
		possible = append(possible, h)
		if h.shop == shop {
			ours = append(ours, h)
		}
	}
	if len(possible) == 0 {
		return holder{}, false
	}
	if len(ours) == 0 {
		ours = possible
	}
	first, last := ours[0], ours[len(ours)-1] // in the order of their shops
	if first.shop != last.shop {
		return holder{shop: shop, value: first.value}, true
	}
	if i := slices.IndexFunc(ours, func(h holder) bool { return norm.NFC.String(h.value) == written }); i >= 0 {
		return ours[i], true
	}
	return first, true
}

// isAt says whether the value is at home in a text of a shop: of the job itself, or of a technician of the shop.
func (k *known) isAt(shop string) bool {
	return k.isOwn || slices.ContainsFunc(k.holders, func(h holder) bool { return h.shop == shop })
}
