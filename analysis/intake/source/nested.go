package source

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
)

// This file lays JSON out as rows: paths with points become columns, and each list rows of its own, which have the columns
// of all that is around the list too.

// A Level is the rows that one list gives; the first is the records of the file themselves.
type Level struct {
	Path    string
	Columns []int // that it has and the levels around it do not, from 0
	Parent  int   // the level around it
}

// A node is a JSON value: a text, a list, or an object with its members in their order.
type node struct {
	isList, isObject bool
	names            []string
	inside           []node
	text             string
}

// nested reads a JSON file, an array of records or one after the other, to any depth. It is read twice: for its columns,
// and for its rows.
func (r Reader) nested(file Input, t *Table) (*ForeignFile, error) {
	path, err := r.plainJSON(file, t)
	if err != nil {
		return nil, err
	}
	lay := nesting{members: r.Members, lists: map[string]bool{}, columns: map[string]int{}, levels: []Level{{}}, levelOf: map[string]int{"": 0}}
	if err := eachRecord(path, t, func(_ int64, record node) error { lay.look("", record); return nil }); err != nil {
		return nil, err
	}
	if err := eachRecord(path, t, func(_ int64, record node) error { lay.note(0, "", record); return nil }); err != nil {
		return nil, err
	}
	if t.Header = lay.names; len(t.Header) == 0 || len(t.Header) > MostColumns {
		return nil, t.Refuse(fmt.Sprintf("has %d different paths in its records", len(t.Header)), "give a file of records")
	}
	out, err := r.out(t, len(t.Header)+1) // the last is the level
	if err != nil {
		return nil, err
	}
	out.Levels = lay.levels
	return out, eachRecord(path, t, func(line int64, record node) error {
		return lay.rows(0, "", record, make([]string, len(t.Header)+1), func(fields []string, level int) error {
			fields[len(t.Header)] = strconv.Itoa(level)
			return out.Add(line, fields, "")
		})
	})
}

// plainJSON is the file as UTF-8.
func (r Reader) plainJSON(file Input, t *Table) (string, error) {
	scan := &TextScan{}
	var err error
	if t.SHA256, err = Hashed(file.Name, scan); err != nil {
		return "", err
	}
	if t.Encoding, err = scan.Encoding(); err != nil {
		return "", t.Refuse(err.Error(), "save it as JSON in UTF-8")
	}
	if t.Encoding == UTF8Plain {
		return file.Name, nil
	}
	path, _, err := PlainCopy(r.Dir, file.Name, t.Encoding)
	if err != nil {
		return "", t.Refuse("cannot be read as "+t.Encoding, "save it as JSON in UTF-8")
	}
	return path, nil
}

// eachRecord gives the records of a file, 1 for the first: the items of an array, or the objects one after the other.
func eachRecord(path string, t *Table, each func(line int64, record node) error) error {
	in, err := os.Open(path)
	if err != nil {
		return err
	}
	defer in.Close()
	decoder := json.NewDecoder(bufio.NewReaderSize(in, 1<<18))
	decoder.UseNumber()
	line := int64(0)
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		if err == nil && token == json.Delim('[') {
			for err == nil && decoder.More() {
				line++
				var record node
				if record, err = readNode(decoder); err == nil {
					err = each(line, record)
				}
			}
			if err == nil {
				_, err = decoder.Token()
			}
		} else if err == nil {
			line++
			var record node
			if record, err = readRest(decoder, token); err == nil {
				err = each(line, record)
			}
		}
		if refusal := (*Refusal)(nil); err != nil && !errors.As(err, &refusal) {
			return t.Refuse(fmt.Sprintf("is not JSON: record %d: %v", max(1, line), err), "export it again")
		}
		if err != nil {
			return err
		}
	}
	if line == 0 {
		return t.Refuse("holds no records", "give an array of records, or one record a line")
	}
	return nil
}

func readNode(decoder *json.Decoder) (node, error) {
	token, err := decoder.Token()
	if err != nil {
		return node{}, err
	}
	return readRest(decoder, token)
}

// readRest reads the value that begins with a token.
func readRest(decoder *json.Decoder, token json.Token) (node, error) {
	switch value := token.(type) {
	case json.Delim:
		one := node{isList: value == '[', isObject: value == '{'}
		for decoder.More() {
			if one.isObject {
				name, err := decoder.Token()
				if err != nil {
					return one, err
				}
				one.names = append(one.names, fmt.Sprint(name))
			}
			inside, err := readNode(decoder)
			if err != nil {
				return one, err
			}
			one.inside = append(one.inside, inside)
		}
		_, err := decoder.Token()
		return one, err
	case string:
		return node{text: value}, nil
	case json.Number:
		return node{text: value.String()}, nil
	case bool:
		return node{text: strconv.FormatBool(value)}, nil
	}
	return node{}, nil // null
}

// A nesting is what the paths of a file are.
type nesting struct {
	members []string
	lists   map[string]bool // paths that are a list in some record
	names   []string
	columns map[string]int // by path
	levels  []Level
	levelOf map[string]int // by the path of a list
}

func within(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// isMembers tells whether the names of an object's members are values.
func (n *nesting) isMembers(path string) bool {
	return path != "" && slices.ContainsFunc(n.members, func(given string) bool {
		return strings.EqualFold(given, path) || strings.HasSuffix(strings.ToLower(path), "."+strings.ToLower(given))
	})
}

// look finds the paths that are lists.
func (n *nesting) look(path string, value node) {
	switch {
	case value.isList:
		n.lists[path] = true
		for _, item := range value.inside {
			n.look(path, item)
		}
	case value.isObject && n.isMembers(path):
		n.lists[within(path, "*")] = true
		for _, item := range value.inside {
			n.look(within(path, "*"), item)
		}
	case value.isObject:
		for i, name := range value.names {
			n.look(within(path, name), value.inside[i])
		}
	}
}

// note finds the columns and the levels that they are of.
func (n *nesting) note(level int, path string, value node) {
	switch {
	case value.isList:
		for _, item := range value.inside {
			n.note(level, path, item)
		}
	case value.isObject && n.isMembers(path):
		inside := within(path, "*")
		at := n.levelAt(level, inside)
		n.column(at, inside)
		for _, item := range value.inside {
			if item.isObject {
				n.note(at, inside, item)
			} else {
				n.note(at, inside+".value", item)
			}
		}
	case value.isObject:
		for i, name := range value.names {
			inside, at := within(path, name), level
			if n.lists[inside] {
				at = n.levelAt(level, inside)
			}
			n.note(at, inside, value.inside[i])
		}
	case path == "":
		n.column(level, "value")
	default:
		n.column(level, path)
	}
}

func (n *nesting) levelAt(parent int, path string) int {
	at, known := n.levelOf[path]
	if !known {
		at = len(n.levels)
		n.levelOf[path] = at
		n.levels = append(n.levels, Level{Path: path, Parent: parent})
	}
	return at
}

func (n *nesting) column(level int, path string) {
	if _, known := n.columns[path]; !known {
		n.columns[path] = len(n.names)
		n.levels[level].Columns = append(n.levels[level].Columns, len(n.names))
		n.names = append(n.names, path)
	}
}

// rows gives the row of a value and of every list within it. fields are those of all that is around it.
func (n *nesting) rows(level int, path string, value node, around []string, add func([]string, int) error) error {
	fields := slices.Clone(around)
	var lists []func() error
	n.fill(level, path, value, fields, &lists, add)
	if err := add(slices.Clone(fields), level); err != nil {
		return err
	}
	for _, list := range lists {
		if err := list(); err != nil {
			return err
		}
	}
	return nil
}

// fill writes the texts of a value into its row and keeps its lists for later, when the row is whole.
func (n *nesting) fill(level int, path string, value node, fields []string, lists *[]func() error, add func([]string, int) error) {
	if !value.isObject {
		name := path
		if name == "" {
			name = "value"
		}
		if column, known := n.columns[name]; known && !value.isList {
			fields[column] = value.text
		}
		return
	}
	for i, name := range value.names {
		inside, item := within(path, name), value.inside[i]
		switch {
		case n.lists[inside]:
			*lists = append(*lists, func() error { return n.items(n.levelOf[inside], inside, item, fields, add) })
		case item.isObject && n.isMembers(inside):
			*lists = append(*lists, func() error { return n.membersOf(inside, item, fields, add) })
		default:
			n.fill(level, inside, item, fields, lists, add)
		}
	}
}

// items gives the rows of a list; a value that is no list here is a list of one, and none where it is empty.
func (n *nesting) items(level int, path string, value node, around []string, add func([]string, int) error) error {
	if !value.isList {
		if !value.isObject && value.text == "" {
			return nil
		}
		return n.rows(level, path, value, around, add)
	}
	for _, item := range value.inside {
		if err := n.items(level, path, item, around, add); err != nil {
			return err
		}
	}
	return nil
}

// membersOf gives a row for each member of an object whose names are values.
func (n *nesting) membersOf(path string, value node, around []string, add func([]string, int) error) error {
	inside := within(path, "*")
	for i, name := range value.names {
		fields := slices.Clone(around)
		fields[n.columns[inside]] = name
		item, at := value.inside[i], inside
		if !item.isObject {
			at += ".value"
		}
		if err := n.rows(n.levelOf[inside], at, item, fields, add); err != nil {
			return err
		}
	}
	return nil
}
