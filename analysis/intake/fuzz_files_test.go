package intake

import (
	"archive/zip"
	"context"
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"plumbline/analysis/intake/source"
)

// bookParts are the parts of a workbook around its sheet, as small as ECMA-376 has them.
var bookParts = map[string]string{
	"[Content_Types].xml": `<?xml version="1.0"?><Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
		`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>` +
		`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
	"_rels/.rels": `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
	"xl/workbook.xml": `<?xml version="1.0"?><workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" ` +
		`xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="jobs" sheetId="1" r:id="rId1"/></sheets></workbook>`,
	"xl/_rels/workbook.xml.rels": `<?xml version="1.0"?><Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">` +
		`<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
}

// writeBook writes a workbook whose one sheet is the given text.
func writeBook(t *testing.T, path, sheet string) {
	t.Helper()
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	packed := zip.NewWriter(file)
	add := func(name, text string) {
		part, err := packed.Create(name)
		if err == nil {
			_, err = part.Write([]byte(text))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	for name, text := range bookParts {
		add(name, text)
	}
	add("xl/worksheets/sheet1.xml", sheet)
	if err := errors.Join(packed.Close(), file.Close()); err != nil {
		t.Fatal(err)
	}
}

// forms are the files that FuzzFiles writes.
var forms = []string{"jobs.csv", "jobs.json", "jobs.ndjson", "jobs.xlsx"}

// Whatever a file holds, an import of it ends: it is refused in a line that a person understands, or every row that was
// read is added, updated, unchanged or rejected. What comes in by one import and again by another adds nothing.
func FuzzFiles(f *testing.F) {
	const row = `<row r="2"><c r="A2" t="inlineStr"><is><t>a</t></is></c><c r="B2"><v>1</v></c><c r="C2"><v>46090.5</v></c><c r="D2" t="inlineStr"><is><t>recheck</t></is></c></row>`
	const head = `<row r="1"><c r="A1" t="inlineStr"><is><t>shop</t></is></c><c r="B1" t="inlineStr"><is><t>job_no</t></is></c>` +
		`<c r="C1" t="inlineStr"><is><t>opened_at</t></is></c><c r="D1" t="inlineStr"><is><t>reason</t></is></c></row>`
	const sheet = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>` + head + row + `</sheetData></worksheet>`
	for form, seeds := range [][]string{
		{"shop,job_no,opened_at,reason\na,1,2026-03-09 14:05,recheck\na,1,2026-03-10,other\n", "shop;job_no;opened_at;reason\r\n\"a\"\"\";1;x;recheck\r\n",
			"\xff\xfes\x00", "shop,job_no,opened_at,reason\n\"a,1", ",,\n", "shop,shop\na,b\n"},
		{`[{"shop":"a","job_no":1,"opened_at":"2026-03-09 14:05","reason":"recheck"}]`, `{"jobs":[{"shop":"a","job_no":"1"}],"scans":[]}`,
			`[{"shop":"a","shop":"b"}]`, `[[1]]`, `{"jobs":{}}`, `[`, `null`, `[{"a":{"b":[1,2]}}]`, "\xef\xbb\xbf[]"},
		{"{\"shop\":\"a\",\"job_no\":\"1\",\"opened_at\":\"2026-03-09\",\"reason\":\"other\"}\n{\"shop\":null}\n", "{}\n{", "1\n2\n"},
		{sheet, `<worksheet><sheetData><row r="1048577"/></sheetData></worksheet>`, `<worksheet><sheetData><row r="1"><c r="XFE1"><v>1</v></c></row>`,
			`<worksheet><sheetData><row r="1"><c t="s"><v>9</v></c></row></sheetData></worksheet>`, `<!DOCTYPE x><worksheet/>`, ``},
	} {
		for _, seed := range seeds {
			f.Add(seed, form)
		}
	}
	f.Fuzz(func(t *testing.T, text string, form int) {
		if len(text) > 1<<16 {
			return
		}
		name := forms[(form%len(forms)+len(forms))%len(forms)]
		path := filepath.Join(t.TempDir(), name)
		if filepath.Ext(name) == ".xlsx" {
			writeBook(t, path, text)
		} else if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		h, added := emptyHistory(t), int64(0)
		for again := range 2 {
			result, err := Import(context.Background(), h, Options{Files: []string{path}, Now: now, ToolVersion: "test"})
			var refused *source.Refusal
			if err != nil && !errors.As(err, &refused) {
				t.Fatalf("%s: %v\n%q", name, err, text)
			}
			added = 0
			for _, b := range result.Files {
				added += b.Added
				if b.Read != b.Added+b.Updated+b.Unchanged+b.Rejected {
					t.Fatalf("%s: the balance is %+v\n%q", name, b, text)
				}
			}
			if again == 1 && added > 0 {
				t.Fatalf("%s: %d rows are added again\n%q", name, added, text)
			}
		}
	})
}

var codeForm = regexp.MustCompile(`^[PCBU][0-3][0-9A-F]{3}(-[0-9A-F]{2})?$`)

// A trouble code, a VIN and a word are read in one form: read again they stay, and a code counts as standard exactly where
// it has the form of SAE J2012.
func FuzzCodes(f *testing.F) {
	for _, seed := range []string{"c110113", "C1101-13", "C1101:13", " c1101 ", "C11011", "P4000", "U3FFF-FF", "C1101--13", "ſ0000", "1m8gdm9a-xkp 042788", "１２", "\u00a0"} {
		f.Add(seed)
	}
	h := withForeignReadings(f)
	f.Fuzz(func(t *testing.T, x string) {
		if !isText(x) {
			return
		}
		for _, read := range []string{"read_code", "read_vin", "as_word"} {
			if got := asked(t, h, read+"(x) is not distinct from "+read+"("+read+"(x))", x); got != "true" {
				t.Errorf("%s of %q is %s, and of that %s", read, x, asked(t, h, read+"(x)", x), asked(t, h, read+"("+read+"(x))", x))
			}
		}
		code := asked(t, h, "read_code(x)", x)
		if standard := asked(t, h, "coalesce(standard_code(read_code(x)), false)", x); (standard == "true") != codeForm.MatchString(code) {
			t.Errorf("%q is read as %q, standard: %s", x, code, standard)
		}
	})
}
