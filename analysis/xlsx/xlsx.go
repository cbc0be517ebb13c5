// Package xlsx saves workbooks so that equal content has equal bytes: parts in the order of their names with the list
// of content types first, no times, and that list in order. excelize writes parts and list in the order of a map, which
// is another each time.
package xlsx

import (
	"archive/zip"
	"bytes"
	"cmp"
	"compress/flate"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"slices"

	"github.com/xuri/excelize/v2"
	"golang.org/x/sync/errgroup"
)

// Save writes the workbook.
func Save(book *excelize.File, w io.Writer) error {
	book.SetZipWriter(func(to io.Writer) excelize.ZipWriter { return &archive{to: to} })
	return book.Write(w)
}

const contentTypes = "[Content_Types].xml"

// An archive keeps the parts until all are there, for only then is their order known.
type archive struct {
	to    io.Writer
	parts []*part
}

type part struct {
	name    string
	content bytes.Buffer
	packed  bytes.Buffer
}

// Create takes a part.
func (a *archive) Create(name string) (io.Writer, error) {
	a.parts = append(a.parts, &part{name: name})
	return &a.parts[len(a.parts)-1].content, nil
}

// AddFS is asked for by excelize's interface, and not used by it.
func (a *archive) AddFS(fs.FS) error { return errors.ErrUnsupported }

// Close puts the parts in order, packs them side by side, and writes the archive.
func (a *archive) Close() error {
	slices.SortFunc(a.parts, func(one, other *part) int {
		return cmp.Or(-compareBool(one.name == contentTypes, other.name == contentTypes), cmp.Compare(one.name, other.name))
	})
	var packing errgroup.Group
	for _, p := range a.parts {
		packing.Go(p.pack)
	}
	if err := packing.Wait(); err != nil {
		return err
	}
	target := zip.NewWriter(a.to)
	for _, p := range a.parts {
		if err := p.write(target); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return target.Close()
}

func compareBool(one, other bool) int {
	switch {
	case one == other:
		return 0
	case one:
		return 1
	}
	return -1
}

func (p *part) pack() error {
	if p.name == contentTypes {
		sorted, err := sortedContentTypes(p.content.Bytes())
		if err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
		p.content = *bytes.NewBuffer(sorted)
	}
	packer, err := flate.NewWriter(&p.packed, flate.DefaultCompression)
	if err != nil {
		return err
	}
	if _, err := packer.Write(p.content.Bytes()); err != nil {
		return err
	}
	return packer.Close()
}

// write adds the packed part; a header made anew has no time.
func (p *part) write(target *zip.Writer) error {
	to, err := target.CreateRaw(&zip.FileHeader{
		Name: p.name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE(p.content.Bytes()),
		CompressedSize64: uint64(p.packed.Len()), UncompressedSize64: uint64(p.content.Len()),
	})
	if err != nil {
		return err
	}
	_, err = to.Write(p.packed.Bytes())
	return err
}
