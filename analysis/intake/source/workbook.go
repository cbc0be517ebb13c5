package source

import (
	"archive/zip"
	"bytes"
	"errors"
	"os"
	"strings"

	"github.com/xuri/excelize/v2"
)

// MostUnzipped is how large a workbook may be once unzipped; what is larger is a trap, not a shop's sheet.
const MostUnzipped = 1 << 30

// OpenWorkbook refuses what is no workbook, in words that tell the cases apart.
func OpenWorkbook(p *Table) (*excelize.File, error) {
	head, err := os.ReadFile(p.File)
	if err != nil {
		return nil, err
	}
	if bytes.HasPrefix(head, []byte{0xD0, 0xCF, 0x11, 0xE0}) {
		if bytes.Contains(head, UTF16Bytes("EncryptedPackage")) {
			return nil, p.Refuse("is protected by a password", "save it without one")
		}
		return nil, p.Refuse("is a workbook of the old XLS form, which is not read", "open it and save it as XLSX")
	}
	if unzippedSize(head) > MostUnzipped {
		return nil, p.Refuse("would unzip to more than a gigabyte", "split it, or save the sheets as CSV")
	}
	book, err := excelize.OpenReader(bytes.NewReader(head), excelize.Options{UnzipSizeLimit: MostUnzipped})
	switch {
	case err == nil:
		return book, nil
	case errors.Is(err, excelize.ErrWorkbookFileFormat) || strings.Contains(err.Error(), "zip"):
		return nil, p.Refuse("cannot be read as a workbook: it is cut short, damaged or something else",
			"open it, save it as XLSX, and try again")
	}
	return nil, p.Refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
}

// unzippedSize is what the zip directory says of the size of all its entries; 0 where it is no zip.
func unzippedSize(content []byte) uint64 {
	archive, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return 0
	}
	var sum uint64
	for _, entry := range archive.File {
		sum += entry.UncompressedSize64
	}
	return sum
}

func UTF16Bytes(text string) []byte {
	var out []byte
	for _, c := range []byte(text) {
		out = append(out, c, 0)
	}
	return out
}

func IsDate1904(book *excelize.File) (bool, error) {
	properties, err := book.GetWorkbookProps()
	if err != nil || properties.Date1904 == nil {
		return false, err
	}
	return *properties.Date1904, nil
}
