package xlsx

import (
	"cmp"
	"encoding/xml"
	"slices"
)

// types is the list of content types, by ending and by part.
// Source: ECMA-376 part 2, Open Packaging Conventions, section 10.1.2.2.
type types struct {
	XMLName   xml.Name      `xml:"http://schemas.openxmlformats.org/package/2006/content-types Types"`
	Defaults  []contentType `xml:"Default"`
	Overrides []contentType `xml:"Override"`
}

type contentType struct {
	Extension   string `xml:",attr,omitempty"`
	PartName    string `xml:",attr,omitempty"`
	ContentType string `xml:",attr"`
}

func sortedContentTypes(list []byte) ([]byte, error) {
	var t types
	if err := xml.Unmarshal(list, &t); err != nil {
		return nil, err
	}
	for _, entries := range [][]contentType{t.Defaults, t.Overrides} {
		slices.SortFunc(entries, func(a, b contentType) int {
			return cmp.Or(cmp.Compare(a.Extension, b.Extension), cmp.Compare(a.PartName, b.PartName))
		})
	}
	sorted, err := xml.Marshal(t)
	if err != nil {
		return nil, err
	}
	return append([]byte(xml.Header), sorted...), nil
}
