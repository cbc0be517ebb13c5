package intake

import (
	"bufio"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/source"
	"plumbline/analysis/layout"
)

// objects is the source of a part in a file of JSON objects, one a record.
type objects struct{}

// jsonFile takes a JSON file: an array of records, records one after the other, or an object that holds an array for
// each of several kinds.
func (im *importing) jsonFile(file source.Input) error {
	p := &part{Table: source.Table{File: cmp.Or(file.Shown, file.Name), Bytes: file.Bytes}}
	scan := &source.TextScan{}
	var err error
	if p.SHA256, err = source.Hashed(file.Name, scan); err != nil {
		return err
	}
	if p.Encoding, err = scan.Encoding(); err != nil {
		return p.Refuse(err.Error(), "save it as JSON in UTF-8")
	}
	path := file.Name
	if p.Encoding != source.UTF8Plain {
		if path, _, err = source.PlainCopy(im.dir, path, p.Encoding); err != nil {
			return p.Refuse("cannot be read as "+p.Encoding, "save it as JSON in UTF-8")
		}
	}
	shape, err := source.JsonShape(path)
	if errors.Is(err, source.ErrNoRecords) {
		return p.Refuse("holds no records", "give an array of records, or one record a line")
	}
	if err != nil {
		return p.Refuse("is not JSON: "+err.Error(), "export it again")
	}
	if shape == "kinds" {
		return im.arraysByKind(p, path)
	}
	return im.objectsPart(p, path, shape)
}

// arraysByKind writes each array of an object to a file of its own and takes it as that kind.
func (im *importing) arraysByKind(p *part, path string) error {
	in, err := os.Open(path)
	if err != nil {
		return err
	}
	defer in.Close()
	decoder := json.NewDecoder(bufio.NewReader(in))
	decoder.Token()
	seen := map[string]bool{}
	for decoder.More() {
		token, err := decoder.Token()
		if err != nil {
			return p.Refuse("is not JSON: "+err.Error(), "export it again")
		}
		name := fmt.Sprint(token)
		if seen[name] {
			return p.Refuse(fmt.Sprintf("has the name %q twice", name), "put the two lists together")
		}
		seen[name] = true
		var array json.RawMessage
		if err := decoder.Decode(&array); err != nil {
			return p.Refuse("is not JSON: "+err.Error(), "export it again")
		}
		copied, _, err := source.Temporary(im.dir, strings.NewReader(string(array)))
		if err != nil {
			return err
		}
		one := *p
		one.Sheet = name
		if err := im.objectsPart(&one, copied, "array"); err != nil {
			return err
		}
	}
	return nil
}

// objectsPart has the engine read the objects and takes their names as the header, in the order of appearance.
func (im *importing) objectsPart(p *part, path, shape string) error {
	p.source = objects{}
	err := im.runAs("json", `create or replace temporary table read_objects as
select row_number() over () as line, json
from read_json_objects($file, format='`+shape+`', maximum_object_size=33554432)`, history.Params{"file": path})
	if err != nil {
		return p.Refuse("is not JSON: it is cut short or damaged", "export it again") // the engine's place is off by one
	}
	names, err := history.SelectStatement[struct{ Name string }](im.ctx, im.h, history.Statement{Name: "json", SQL: `
select name from (
    select unnest(json_keys(json)) as name, line, unnest(range(len(json_keys(json)))) as place
    from read_objects where json_type(json) = 'OBJECT'
) group by name order by min(line), min(place)`}, nil)
	if err != nil {
		return err
	}
	if p.Header = nil; len(names) > source.MostColumns {
		return p.Refuse(fmt.Sprintf("has %d different names in its records", len(names)), "give a file of records")
	}
	for _, row := range names {
		p.Header = append(p.Header, row.Name)
	}
	if len(names) == 0 { // no records at all: an empty array is fine where the kind is known
		for _, c := range layout.Kinds[0].Columns {
			p.Header = append(p.Header, c.Name)
		}
		if p.kind = kindFromName(p.BaseName()); p.kind != nil {
			p.Header = nil
			for _, c := range p.kind.Columns {
				p.Header = append(p.Header, c.Name)
			}
		}
	}
	if err := p.settleKind(im.o.Kind); err != nil {
		return err
	}
	return im.part(p)
}

func (o objects) stage(im *importing, p *part) error {
	params := history.Params{}
	k := ofKind(p.kind, false)
	for i, name := range p.Header {
		parameter := fmt.Sprintf("name_%d", i+1)
		params[parameter] = "/" + strings.NewReplacer("~", "~0", "/", "~1").Replace(name)
		k.Texts = append(k.Texts, parameter)
	}
	return im.fill(k, "objects", params)
}

func (im *importing) runAs(name, sql string, params history.Params) error {
	_, err := im.h.Run(im.ctx, history.Statement{Name: name, SQL: sql}, params)
	return err
}
