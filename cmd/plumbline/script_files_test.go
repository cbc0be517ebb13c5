package main

import (
	"context"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"plumbline/analysis/history"
)

// fileCommands make the files that a script cannot hold as text, other encodings, damaged bytes, workbooks, and do to a
// history what no command does.
var fileCommands = map[string]func(*testscript.TestScript, bool, []string){
	"bytes": writeBytes, "recode": recode, "cut": cut, "workbook": workbook, "mark": mark, "hold": hold, "alter": alter,
}

// writeBytes writes text with Go's escapes: bytes jobs.csv 'shop\x00\r\n'.
func writeBytes(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 2, "bytes FILE TEXT")
	text, err := strconv.Unquote(`"` + strings.ReplaceAll(args[1], `"`, `\"`) + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(text), 0o600))
}

// encodings are the ways in which recode writes UTF-8 text anew.
var encodings = map[string]encoding.Encoding{
	"utf-8-bom":    unicode.UTF8BOM,
	"utf-16le":     unicode.UTF16(unicode.LittleEndian, unicode.UseBOM),
	"utf-16be":     unicode.UTF16(unicode.BigEndian, unicode.UseBOM),
	"utf-16":       unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM),
	"windows-1252": charmap.Windows1252,
}

// lineEnds are the other ends of a line that recode writes.
var lineEnds = map[string]string{"cr": "\r", "crlf": "\r\n"}

// recode writes a file in another encoding, or with other ends of line: recode utf-16le jobs.csv jobs-16.csv.
func recode(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 3, "recode ENCODING FROM TO")
	text := ts.ReadFile(args[1])
	if end, isEnd := lineEnds[args[0]]; isEnd {
		text = strings.ReplaceAll(text, "\n", end)
	} else {
		need(ts, encodings[args[0]] != nil, "recode utf-8-bom|utf-16|utf-16le|utf-16be|windows-1252|cr|crlf FROM TO")
		var err error
		text, err = encodings[args[0]].NewEncoder().String(text)
		ts.Check(err)
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(text), 0o600))
}

// cut keeps the first bytes of a file, as a broken download does: cut jobs.xlsx 1000.
func cut(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 2, "cut FILE BYTES")
	size, err := strconv.ParseInt(args[1], 10, 64)
	ts.Check(err)
	ts.Check(os.Truncate(ts.MkAbs(args[0]), size))
}

// workbook makes a workbook with a sheet for each CSV file, named after it, as people keep them: numbers are numbers
// and moments are date cells.
func workbook(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) > 1, "workbook TO FROM.csv ...")
	book := excelize.NewFile()
	defer book.Close()
	for i, name := range args[1:] {
		rows, err := csv.NewReader(strings.NewReader(ts.ReadFile(name))).ReadAll()
		ts.Check(err)
		sheet := strings.TrimSuffix(filepath.Base(name), ".csv")
		if i == 0 {
			ts.Check(book.SetSheetName("Sheet1", sheet))
		} else {
			_, err := book.NewSheet(sheet)
			ts.Check(err)
		}
		ts.Check(fillSheet(book, sheet, rows))
	}
	ts.Check(book.SaveAs(ts.MkAbs(args[0])))
}

// momentForms are the texts that become date cells, with the format in which the cell shows them.
var momentForms = map[string]string{"2006-01-02 15:04": "yyyy-mm-dd hh:mm", "2006-01-02": "yyyy-mm-dd"}

func fillSheet(book *excelize.File, sheet string, rows [][]string) error {
	for i, row := range rows {
		for j, text := range row {
			cell, err := excelize.CoordinatesToCellName(j+1, i+1)
			if err != nil {
				return err
			}
			if err := fillCell(book, sheet, cell, text); err != nil {
				return fmt.Errorf("%s!%s: %w", sheet, cell, err)
			}
		}
	}
	return nil
}

func fillCell(book *excelize.File, sheet, cell, text string) error {
	for form, shown := range momentForms {
		at, err := time.Parse(form, text)
		if err != nil {
			continue
		}
		style, err := book.NewStyle(&excelize.Style{CustomNumFmt: &shown})
		if err != nil {
			return err
		}
		if err := book.SetCellValue(sheet, cell, at); err != nil {
			return err
		}
		return book.SetCellStyle(sheet, cell, cell, style)
	}
	if number, err := strconv.ParseFloat(text, 64); err == nil {
		return book.SetCellValue(sheet, cell, number)
	}
	if text == "" {
		return nil
	}
	return book.SetCellValue(sheet, cell, text)
}

// mark does to a cell of a workbook what no text of a script can say: mark FILE SHEET CELL comment TEXT, fill COLOR, text
// TEXT, or number NUMBER FORM, a number that is shown in a form.
func mark(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) >= 5, "mark FILE SHEET CELL comment|fill|text|number VALUE [FORM]")
	book, err := excelize.OpenFile(ts.MkAbs(args[0]))
	ts.Check(err)
	defer book.Close()
	sheet, cell, value := args[1], args[2], args[4]
	var style excelize.Style
	switch args[3] {
	case "comment":
		ts.Check(book.AddComment(sheet, excelize.Comment{Cell: cell, Author: "A", Text: value}))
	case "fill":
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{value}}
	case "text":
		ts.Check(book.SetCellStr(sheet, cell, value))
	case "number":
		need(ts, len(args) == 6, "mark FILE SHEET CELL number NUMBER FORM")
		number, err := strconv.ParseFloat(value, 64)
		ts.Check(err)
		ts.Check(book.SetCellValue(sheet, cell, number))
		style.CustomNumFmt = &args[5]
	}
	if args[3] == "fill" || args[3] == "number" {
		made, err := book.NewStyle(&style)
		ts.Check(err)
		ts.Check(book.SetCellStyle(sheet, cell, cell, made))
	}
	ts.Check(book.Save())
}

// hold keeps a history open for writing until the script ends, as another command at work would.
func hold(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 1, "hold HISTORY")
	h, err := history.OpenWriter(context.Background(), ts.MkAbs(args[0]))
	ts.Check(err)
	ts.Defer(func() { h.Close() })
}

// alter runs a statement on a history, to make what another version would have written.
func alter(ts *testscript.TestScript, neg bool, args []string) {
	need(ts, !neg && len(args) == 2, "alter HISTORY SQL")
	h, err := history.OpenWriter(context.Background(), ts.MkAbs(args[0]))
	ts.Check(err)
	defer h.Close()
	_, err = h.Run(context.Background(), history.Statement{Name: "alter", SQL: args[1]}, nil)
	ts.Check(err)
}

func need(ts *testscript.TestScript, fits bool, usage string) {
	if !fits {
		ts.Fatalf("usage: %s", usage)
	}
}
