package profile

import (
	"slices"

	"plumbline/analysis/layout"
)

// A KindOfRecords is what a profile maps to one kind.
type KindOfRecords struct {
	Kind    *layout.Kind
	Records []RecordMapping
}

// Kinds sorts the profile's records by kind, in the order in which the kinds come first.
func (p *Profile) Kinds() []KindOfRecords {
	var all []KindOfRecords
	for _, record := range p.Records {
		kind := layout.KindNamed(record.Kind)
		at := slices.IndexFunc(all, func(one KindOfRecords) bool { return one.Kind == kind })
		if at < 0 {
			at, all = len(all), append(all, KindOfRecords{Kind: kind})
		}
		all[at].Records = append(all[at].Records, record)
	}
	return all
}
