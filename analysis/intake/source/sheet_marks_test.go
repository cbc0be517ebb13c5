package source

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Cells as ECMA-376 part 1, 18.3.1.4, allows them: with a name space or none, without reference, closed in one tag.
func TestMarksIn(t *testing.T) {
	const sheet = `<x:worksheet><x:sheetData><x:row r="2" spans="1:3"><x:c r="B2" s="3"><x:f>A1*2</x:f><x:v> 1E5 </x:v></x:c>` +
		`<x:c s='1'/></x:row><row><c t="s"><v>0</v></c><c t="inlineStr"><is><t>a r="Z9"</t></is></c></row>` +
		`</x:sheetData><c r="A9"/></x:worksheet>`
	var got []cellMark
	if err := marksIn(strings.NewReader(sheet), func(cell cellMark) { got = append(got, cell) }); err != nil {
		t.Fatal(err)
	}
	want := []cellMark{
		{column: 2, line: 2, style: 3, value: "1E5"}, {column: 3, line: 2, style: 1},
		{column: 1, line: 3, kind: "s", value: "0"}, {column: 2, line: 3, kind: "inlineStr"},
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(cellMark{})); diff != "" {
		t.Error(diff)
	}
}
