package source

import (
	"archive/zip"
	"bufio"
	"bytes"
	"io"
	"strconv"

	"github.com/xuri/excelize/v2"
)

// A cellMark is what a sheet says of a cell beside what the cell shows.
type cellMark struct {
	column, line int // from 1
	style        int
	kind         string // "n" or nothing: a number; "d": a day; others are no numbers
	value        string // as stored; of a text it may be its place among the shared ones
}

// eachMark goes through the cells of a sheet as they are stored. The workbook library would take in all of them to tell
// one's type or style, and to unpack the XML as such once more would cost as much as to read the sheet.
//
// Source: ECMA-376 part 1, 18.3.1.4 (c), 18.3.1.73 (row), 18.3.1.96 (v) and 18.18.11 (types of cells).
func eachMark(file, sheet string, see func(cellMark)) error {
	book, err := zip.OpenReader(file)
	if err != nil {
		return err
	}
	defer book.Close()
	name, err := sheetPart(book, sheet)
	if err != nil {
		return err
	}
	in, err := book.Open(name)
	if err != nil {
		return err
	}
	defer in.Close()
	return marksIn(in, see)
}

func marksIn(sheet io.Reader, see func(cellMark)) error {
	tags := bufio.NewScanner(sheet)
	tags.Buffer(nil, 8*MostBytes)
	tags.Split(upToTag)
	var cell cellMark
	for tags.Scan() {
		tag := tags.Bytes()
		name, end := tagName(tag)
		switch name {
		case "row":
			cell.line, cell.column = cell.line+1, 0
			if line, err := strconv.Atoi(string(attributeOf(tag, "r"))); err == nil {
				cell.line = line
			}
		case "c":
			cell.column, cell.value, cell.kind = cell.column+1, "", string(attributeOf(tag, "t"))
			cell.style, _ = strconv.Atoi(string(attributeOf(tag, "s")))
			if column, _, err := excelize.CellNameToCoordinates(string(attributeOf(tag, "r"))); err == nil {
				cell.column = column
			}
			if end > 0 && tag[end-1] == '/' {
				see(cell)
			}
		case "v":
			cell.value = string(bytes.TrimSpace(tag[min(end+1, len(tag)):]))
		case "/c":
			see(cell)
		case "/sheetData":
			return nil
		}
	}
	return tags.Err()
}

// upToTag cuts before every tag.
func upToTag(data []byte, atEnd bool) (int, []byte, error) {
	if at := bytes.IndexByte(data, '<'); at >= 0 {
		return at + 1, data[:at], nil
	}
	if atEnd && len(data) > 0 {
		return len(data), data, nil
	}
	return 0, nil, nil
}

// tagName is a tag's name without its name space, and where the tag ends.
func tagName(tag []byte) (name string, end int) {
	if end = bytes.IndexByte(tag, '>'); end < 0 {
		return "", 0
	}
	whole := tag[:end]
	if cut := bytes.IndexAny(whole, " \t\r\n"); cut >= 0 {
		whole = whole[:cut]
	}
	closes := ""
	if bytes.HasPrefix(whole, []byte("/")) {
		closes, whole = "/", whole[1:]
	}
	return closes + string(bytes.TrimSuffix(whole[bytes.IndexByte(whole, ':')+1:], []byte("/"))), end
}

// attributeOf is the value of a tag's attribute; nothing where it has none of that name.
func attributeOf(tag []byte, name string) []byte {
	end := bytes.IndexByte(tag, '>')
	for rest := tag[:max(end, 0)]; ; {
		at := bytes.Index(rest, []byte(name+"="))
		if at < 1 || at+len(name)+1 >= len(rest) {
			return nil
		}
		begins := bytes.IndexByte([]byte(" \t\r\n"), rest[at-1]) >= 0
		rest = rest[at+len(name)+1:]
		if !begins {
			continue
		}
		value, _, _ := bytes.Cut(rest[1:], rest[:1])
		return value
	}
}
