package intake

import (
	"context"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"plumbline/analysis/intake/draft"
	"plumbline/analysis/intake/source"
)

// What cannot be read through a profile gets one clear line, and the history stays as it was. A draft of the same file
// says the same, where the file is at fault.
func TestForeignFilesThatAreRefused(t *testing.T) {
	cases := []struct{ name, file, content, want string }{
		{"huge field", "list.csv", "RO,In\n1,2026-03-09\n2,\"" + strings.Repeat("x", 10<<20) + "\"\n", "list.csv:3: the record is longer than a million characters"},
		{"huge field without quotes", "list.csv", "RO,In\n1," + strings.Repeat("x", 10<<20) + "\n", "list.csv:2: the record is longer than a million characters"},
		{"NUL bytes", "list.csv", "RO,In\n1,2026\x00\n", "list.csv: holds NUL bytes, so it is no text file, or UTF-16 without its mark"},
		{"open quote", "list.csv", "RO,In\n1,\"2026-03-09\n2,2026-03-09\n", "list.csv:2: a quote is opened in this record and never closed"},
		{"open quote in the header", "list.csv", "\"RO,In\n1,2026-03-09\n", "list.csv:1: a quote is opened in this record and never closed"},
		{"protected", "list.xlsx", "\xD0\xCF\x11\xE0" + string(source.UTF16Bytes("EncryptedPackage")), "list.xlsx: is protected by a password"},
		{"old workbook", "list.xlsx", "\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", "list.xlsx: is a workbook of the old XLS form, which is not read"},
		{"old ending", "list.xls", "\xD0\xCF", "list.xls: is a workbook of the old XLS form, which is not read"},
		{"truncated", "list.xlsx", "PK\x03\x04 and no more", "list.xlsx: cannot be read as a workbook: it is cut short, damaged or something else"},
		{"other form", "list.parquet", "[]", "list.parquet: is no CSV, XLSX or JSON file, which is what a profile reads"},
		{"blank", "list.csv", "\n\n  \n", ""},
		{"empty", "list.csv", "", "list.csv: is empty"},
	}
	profile := write(t, "p.toml", plainJobs+oneDay)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := emptyHistory(t)
			path := write(t, c.file, c.content)
			_, importErr := Import(context.Background(), h, Options{Files: []string{path}, Profile: profile, Now: now})
			_, draftErr := draft.Read(context.Background(), path)
			if c.want == "" { // in words of their own
				refusalOf(t, importErr)
				refusalOf(t, draftErr)
			} else {
				for way, err := range map[string]error{"import": importErr, "draft": draftErr} {
					if diff := cmp.Diff(c.want, refusalOf(t, err)); diff != "" {
						t.Errorf("%s: %s", way, diff)
					}
				}
			}
			if left := one(t, h, "select (select count(*) from jobs) + (select count(*) from imports)"); left != "0" {
				t.Error("the refused import left something behind")
			}
		})
	}
}

// A truncated copy of a good workbook is refused wherever it is cut, or, where nothing of the sheet is lost, read whole.
func TestCutWorkbook(t *testing.T) {
	whole, err := os.ReadFile(asSheet(t, "RO,In\n1,2026-03-09\n"))
	if err != nil {
		t.Fatal(err)
	}
	profile := write(t, "p.toml", plainJobs+oneDay)
	for cut := 1; cut < 8; cut++ {
		path := write(t, "list.xlsx", string(whole[:len(whole)*cut/8]))
		_, err := Import(context.Background(), emptyHistory(t), Options{Files: []string{path}, Profile: profile, Now: now})
		if got := refusalOf(t, err); !strings.Contains(got, "cut short, damaged or something else") {
			t.Errorf("cut at %d eighths: %s", cut, got)
		}
	}
}

// Limits that a file may reach and not pass: a million empty columns are none, and the longest cell of a workbook and
// the widest row come in whole or are set aside.
func TestForeignLimits(t *testing.T) {
	commas := strings.Repeat(",", 1_000_000)
	profile := write(t, "p.toml", plainJobs+oneDay+"complaint = \"Says\"\n")
	h := emptyHistory(t)
	result := imported(t, h, Options{Profile: profile, Files: []string{write(t, "list.csv", "RO,In,Says"+commas+"\n1,2026-03-09,x"+commas+"\n")}})
	if result.Files[0].Added != 1 {
		t.Errorf("%+v %v", result.Files[0], faultLines(t, h))
	}
	h = emptyHistory(t)
	long := strings.Repeat("w", 32767)
	result = imported(t, h, Options{Profile: profile, Files: []string{asSheet(t, "RO,In,Says\n1,2026-03-09,"+long+"\n2,2026-03-09,b"+strings.Repeat(",", 16380)+"c\n")}})
	if got := one(t, h, "select length(complaint) from jobs"); got != "32767" || result.Files[0].Rejected != 1 {
		t.Errorf("%s characters %+v", got, result.Files[0])
	}
	if diff := cmp.Diff([]string{"list.xlsx Sheet1!row 3: has 16383 fields where the header has 3"}, faultLines(t, h)); diff != "" {
		t.Error(diff)
	}
}

// A row set aside names the source's own column and cell, and what stands there; it can be mended in the shop's own file
// or in the one that is written out, with the profile as it is.
func TestForeignRejectsNameTheSource(t *testing.T) {
	profile := write(t, "p.toml", "[source]\nsheet = \"Sheet1\"\nheader_row = 2\ndate_order = \"mdy\"\ndecimal = \",\"\nthousands = \".\"\n[shared]\nshop = { constant = \"n\" }\njob_no = \"RO #\"\n"+
		"[[record]]\nkind = \"jobs\"\n[record.fields]\nopened_at = { columns = [\"Date In\", \"Time In\"] }\nreason = { column = \"Job type\", words = { \"Glass\" = \"windshield_replacement\" } }\nodometer_km = { column = \"Odo\", unit = \"mi\" }\n"+
		"[[record]]\nkind = \"measurements\"\nwhen = \"LF in\"\n[record.fields]\nquantity = { constant = \"ride_height_lf\" }\nvalue = \"LF in\"\nunit = { constant = \"in\" }\n"+
		"[[record]]\nkind = \"measurements\"\nwhen = \"Batt.\"\n[record.fields]\nquantity = { constant = \"battery_voltage\" }\nvalue = { column = \"Batt.\", extract = '^([0-9,]+) V' }\nunit = { constant = \"V\" }\n")
	const list = "Our list,,,,,,\nRO #,Date In,Time In,Job type,Odo,LF in,Batt.\n1,13/9/2026,1:00 PM,Glass,,,\n2,3/9/2026,1:00 PM,respray,,\"26,5x\",twelve\n3,3/9/2026,,Glass,12.5,,\n4,3/9/2026,,,,,\n5,3/9/2026,,Glass,,,,surplus\n"
	want := []string{
		`Date In + Time In "13/9/2026 1:00 PM" is not a date`,
		`Job type "respray" is not one of the words for reason`,
		`Odo "12.5 (decimal mark ,)" is not a number`,
		`Job type is missing`,
		`has 8 fields where the header has 7`,
		`Batt. "twelve" is not a number`,
		`LF in "26,5x" is not a number`,
	}
	csvPlaces := []string{"list.csv:3", "list.csv:4", "list.csv:5", "list.csv:6", "list.csv:7", "list.csv:4", "list.csv:4"}
	cells := []string{"Sheet1!B3", "Sheet1!D4", "Sheet1!E5", "Sheet1!D6", "Sheet1!row 7", "Sheet1!G4", "Sheet1!F4"}
	for i := range cells {
		cells[i] = "list.xlsx " + cells[i]
	}
	for path, places := range map[string][]string{write(t, "list.csv", list): csvPlaces, asSheet(t, list): cells} {
		h := emptyHistory(t)
		imported(t, h, Options{Files: []string{path}, Profile: profile})
		var wanted []string
		for i := range want {
			wanted = append(wanted, places[i]+": "+want[i])
		}
		if diff := cmp.Diff(wanted, faultLines(t, h)); diff != "" {
			t.Error(diff)
		}
		for _, name := range []string{"out.csv", "out.xlsx"} {
			written, err := WriteRejects(context.Background(), h, 1, write(t, name, ""))
			if err != nil || len(written) != 1 {
				t.Fatal(written, err)
			}
			again := newHistory(t)
			result := imported(t, again, Options{Files: written, Profile: profile})
			if result.Files[0].Rejected != 5 || result.Files[0].Read != 5 {
				t.Errorf("%s: %+v %v", name, result.Files[0], faultLines(t, again))
			}
		}
	}
}
