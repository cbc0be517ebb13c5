package profile

import (
	"slices"

	"plumbline/analysis/layout"
)

// Identifiers are the columns of a header, from 0, that the profile makes identifiers of, and which.
func (p *Profile) Identifiers(header []string) map[int]string {
	own, ids := OwnColumns(header), map[int]string{}
	add := func(place int, name string) {
		if _, known := ids[place]; !known && place >= 0 && place < len(header) {
			ids[place] = name
		}
	}
	for _, record := range p.Records {
		for _, column := range layout.KindNamed(record.Kind).Columns {
			field, given := record.Fields[column.Name]
			if !given || !column.Identifier {
				continue
			}
			if field.Position > 0 {
				add(len(header)-len(own)+field.Position-1, column.Name)
			}
			names := slices.Concat([]string{field.Column}, field.Columns, field.Either)
			if field.Item {
				names = append(names, record.Each.Column)
			}
			for _, name := range names {
				for _, piece := range pieces(name, own) {
					add(len(header)-len(own)+piece.Place, column.Name)
				}
			}
		}
	}
	return ids
}
