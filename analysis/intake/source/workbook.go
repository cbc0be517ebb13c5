package source

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/xuri/excelize/v2"
)

// OpenWorkbook refuses what is no workbook, in words that tell the cases apart, and what would take the memory of the
// machine, before anything of it is unpacked.
func OpenWorkbook(p *Table) (*excelize.File, error) {
	if info, err := os.Stat(p.File); err != nil {
		return nil, err
	} else if info.Size() > mostPacked {
		return nil, p.Refuse(fmt.Sprintf("is a workbook of more than %d MB", mostPacked>>20), "split it, or save the sheets as CSV")
	}
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
	if reason := beyondBounds(head); reason != "" {
		return nil, p.Refuse(reason, "it is no workbook that a spreadsheet program has saved; if it is, save the sheets as CSV")
	}
	book, err := excelize.OpenReader(bytes.NewReader(head), excelize.Options{UnzipSizeLimit: mostUnzipped})
	switch {
	case err == nil:
		return book, nil
	case errors.Is(err, excelize.ErrWorkbookFileFormat) || strings.Contains(err.Error(), "zip"):
		return nil, p.Refuse("cannot be read as a workbook: it is cut short, damaged or something else",
			"open it, save it as XLSX, and try again")
	}
	return nil, p.Refuse("cannot be read as a workbook: "+err.Error(), "open it, save it as XLSX, and try again")
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
