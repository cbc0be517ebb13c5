package profile

import (
	"slices"

	"plumbline/analysis/layout"
)

// A kindOfRecords is what a profile maps to one kind.
type kindOfRecords struct {
	Kind    *layout.Kind
	Records []RecordMapping
}

// Kinds sorts the profile's records by kind, in the order in which the kinds come first.
func (p *Profile) Kinds() []kindOfRecords {
	var all []kindOfRecords
	for _, record := range p.Records {
		kind := layout.KindNamed(record.Kind)
		at := slices.IndexFunc(all, func(one kindOfRecords) bool { return one.Kind == kind })
		if at < 0 {
			at, all = len(all), append(all, kindOfRecords{Kind: kind})
		}
		all[at].Records = append(all[at].Records, record)
	}
	return all
}
