package review

import (
	"archive/zip"
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"io"
	"slices"
)

// Canonical rewrites a workbook so that equal content has equal bytes: the parts in order of their names with the list
// of content types first, no times, and that list in order. excelize writes parts and list in the order of a map, which
// is another each time.
func Canonical(xlsx []byte) ([]byte, error) {
	source, err := zip.NewReader(bytes.NewReader(xlsx), int64(len(xlsx)))
	if err != nil {
		return nil, fmt.Errorf("workbook: %w", err)
	}
	parts := slices.Clone(source.File)
	slices.SortFunc(parts, func(a, b *zip.File) int {
		return cmp.Or(-compareBool(a.Name == contentTypes, b.Name == contentTypes), cmp.Compare(a.Name, b.Name))
	})
	var out bytes.Buffer
	target := zip.NewWriter(&out)
	for _, part := range parts {
		if err := copyPart(target, part); err != nil {
			return nil, fmt.Errorf("workbook: %s: %w", part.Name, err)
		}
	}
	if err := target.Close(); err != nil {
		return nil, fmt.Errorf("workbook: %w", err)
	}
	return out.Bytes(), nil
}

const contentTypes = "[Content_Types].xml"

func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// copyPart writes a part without its time; a header made anew has none.
func copyPart(target *zip.Writer, part *zip.File) error {
	from, err := part.Open()
	if err != nil {
		return err
	}
	defer from.Close()
	to, err := target.CreateHeader(&zip.FileHeader{Name: part.Name, Method: zip.Deflate})
	if err != nil {
		return err
	}
	if part.Name != contentTypes {
		_, err = io.Copy(to, from)
		return err
	}
	list, err := io.ReadAll(from)
	if err != nil {
		return err
	}
	if list, err = sortedContentTypes(list); err != nil {
		return err
	}
	_, err = to.Write(list)
	return err
}

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
