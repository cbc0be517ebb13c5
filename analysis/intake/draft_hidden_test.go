package intake

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"plumbline/analysis/intake/source"
)

// What a person does not see in a workbook the draft names: sheets, columns with a name, without one, and right of the
// header. Hidden columns in which nothing stands are no matter.
func TestDraftTellsWhatIsHidden(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	_, oldErr := book.NewSheet("Old")
	_, deepErr := book.NewSheet("Deep")
	failed := errors.Join(oldErr, deepErr, book.SetSheetRow("Sheet1", "A1", &[]any{"Shop", "RO", "", "Date In"}),
		book.SetSheetRow("Sheet1", "A2", &[]any{"N", 1, "call back", "2026-03-09", "T01"}),
		book.SetColVisible("Sheet1", "B:C", false), book.SetColVisible("Sheet1", "E:XFD", false),
		book.SetSheetVisible("Old", false), book.SetSheetVisible("Deep", false, true))
	path := filepath.Join(t.TempDir(), "desk.xlsx")
	if err := errors.Join(failed, book.SaveAs(path)); err != nil {
		t.Fatal(err)
	}
	draft, profile := draftedProfile(t, path)
	want := []string{
		`the sheet "Old" is hidden and was not looked at; name it with sheet in the profile if it holds records`,
		`the sheet "Deep" is hidden and was not looked at; name it with sheet in the profile if it holds records`,
		`the column B, "RO", is hidden in the sheet; it was looked at like the others`,
		`the column C is hidden in the sheet and has no name; position = 3 reads it`,
		`the column E is hidden in the sheet and right of the last that has a name; rows that fill it will be set aside`,
	}
	if diff := cmp.Diff(want, draft.Notices); diff != "" {
		t.Error(diff)
	}
	for _, remark := range want {
		if !strings.Contains(draft.TOML, "\n# Look: "+remark+"\n") {
			t.Errorf("the draft does not say %q\n%s", remark, draft.TOML)
		}
	}
	_, err := Import(context.Background(), emptyHistory(t), Options{Files: []string{path}, Profile: profile, Now: now})
	if err == nil || !strings.Contains(err.Error(), "maps no record") {
		t.Errorf("the draft is read as %v", err)
	}
}

// A column that is hidden in a sheet without a header has a place all the same.
func TestDraftTellsOfHiddenColumnsWithoutAHeader(t *testing.T) {
	path := asSheet(t, "A1,2026-03-09,T01\nA2,2026-03-10,T02\n")
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if err := errors.Join(book.SetColVisible("Sheet1", "C", false), book.Save()); err != nil {
		t.Fatal(err)
	}
	draft, _ := draftedProfile(t, path)
	if want := `the column C, "column 3", is hidden in the sheet; it was looked at like the others`; len(draft.Notices) != 2 || draft.Notices[1] != want {
		t.Errorf("%q", draft.Notices)
	}
}

// Which columns are hidden is told as the workbook library tells it, which reads the whole sheet for that.
func TestHiddenColumnsAreThoseOfTheLibrary(t *testing.T) {
	path := deskSheet(t, false)
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	if err := errors.Join(book.SetColVisible("Old", "A", false), book.SetColVisible("Old", "C:E", false), book.SetColVisible("Old", "D", true), book.Save()); err != nil {
		t.Fatal(err)
	}
	for _, sheet := range book.GetSheetList() {
		ranges, err := source.HiddenColumns(path, sheet)
		if err != nil {
			t.Fatal(err)
		}
		var want []int
		for i := range 8 {
			letters, _ := excelize.ColumnNumberToName(i + 1)
			visible, err := book.GetColVisible(sheet, letters)
			if err != nil {
				t.Fatal(err)
			}
			if !visible {
				want = append(want, i)
			}
		}
		if diff := cmp.Diff(want, source.ColumnsWithin(ranges, 8)); diff != "" || len(want) == 0 {
			t.Errorf("%s: %s", sheet, diff)
		}
	}
	if _, err := source.HiddenColumns(path, "none"); err == nil {
		t.Error("a sheet that is not there is said to have no hidden columns")
	}
}
