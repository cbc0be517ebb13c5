package draft

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"plumbline/analysis/intake/profile"
	"plumbline/analysis/layout"
)

// An Answer is what a person says to a question, by the question's key. Of several with one key the last counts.
type Answer struct{ Key, Value string }

// ParseAnswer parts KEY=VALUE at the first = outside double quotes. The key, or a text within it, may stand in quotes.
func ParseAnswer(text string) (Answer, error) {
	quoted := false
	for i, r := range text {
		switch {
		case r == '"':
			quoted = !quoted
		case r == '=' && !quoted:
			key := strings.TrimSpace(text[:i])
			if unquoted, ok := strings.CutPrefix(key, `"`); ok && strings.HasSuffix(unquoted, `"`) && strings.Count(key, `"`) == 2 {
				key = unquoted[:len(unquoted)-1]
			}
			return Answer{key, strings.TrimSpace(text[i+1:])}, nil
		}
	}
	return Answer{}, &WrongAnswer{Key: text, Reason: "is no answer: write it as KEY=VALUE"}
}

// A WrongAnswer error says what is wrong with an answer, and what it could be.
type WrongAnswer struct {
	Key, Value, Reason string
}

// Error names the answer and the reason.
func (e *WrongAnswer) Error() string {
	if e.Value == "" {
		return fmt.Sprintf("the answer %q %s", e.Key, e.Reason)
	}
	return fmt.Sprintf("the answer %q = %q: %s", e.Key, e.Value, e.Reason)
}

// A fieldKey is a column of the n-th record of a kind that a row gives. Without a kind it is one that all kinds share.
type fieldKey struct {
	kind  string
	n     int
	field string
}

func (k fieldKey) String() string {
	switch {
	case k.kind == "":
		return k.field
	case k.n == 1:
		return k.kind + "." + k.field
	}
	return fmt.Sprintf("%s[%d].%s", k.kind, k.n, k.field)
}

// A rowAnswer says of which kind rows are.
type rowAnswer struct {
	column, value string // a value that begins with ~ is contained
	kind          string // none: no record
	n             int    // 0: all records of the kind
}

// said is what a person has answered.
type said struct {
	plain  map[string]string // shop, sheet, date_order …
	fields map[fieldKey]string
	units  map[fieldKey]string
	words  map[fieldKey]map[string]string
	rows   []rowAnswer
}

// plainKeys are the keys that stand by themselves; those of shared columns are fields.
var plainKeys = []string{"shop", "sheet", "date_order", "zone", "decimal", "job_no drop", "one attempt"}

// sharedFields are the columns that all kinds share, answered once.
var sharedFields = []string{"job_no", "vin", "technician"}

var fieldPattern = regexp.MustCompile(`^([a-z_]+)(?:\[([1-9]\d?)\])?\.([a-z0-9_]+)(?:\s+(unit)|\s*:(.*))?$`)

func readAnswers(answers []Answer) (*said, error) {
	s := &said{map[string]string{}, map[fieldKey]string{}, map[fieldKey]string{}, map[fieldKey]map[string]string{}, nil}
	for _, answer := range answers {
		if err := s.take(answer); err != nil {
			return nil, err
		}
	}
	return s, nil
}

func (s *said) take(a Answer) error {
	key := strings.TrimSpace(a.Key)
	if slices.Contains(plainKeys, strings.Join(strings.Fields(key), " ")) {
		s.plain[strings.Join(strings.Fields(key), " ")] = a.Value
		return s.checkPlain(a)
	}
	if rest, ok := strings.CutPrefix(key, "rows "); ok {
		return s.takeRows(a, rest)
	}
	for _, field := range sharedFields {
		if key == field {
			s.fields[fieldKey{"", 1, field}] = a.Value
			return nil
		}
		if word, ok := strings.CutPrefix(key, field+":"); ok {
			s.word(fieldKey{"", 1, field}, word, a.Value)
			return nil
		}
	}
	match := fieldPattern.FindStringSubmatch(key)
	if match == nil {
		return &WrongAnswer{key, a.Value, "there is no such question; keys look like shop, jobs.opened_at, jobs.reason: WORD or rows COLUMN: VALUE" + nearestKey(key)}
	}
	kind := layout.KindNamed(match[1])
	if kind == nil {
		return &WrongAnswer{key, a.Value, nearestOf("there is no kind "+match[1], match[1], layout.KindNames())}
	}
	column := kind.Column(match[3])
	if column == nil {
		var names []string
		for _, c := range kind.Columns {
			names = append(names, c.Name)
		}
		return &WrongAnswer{key, a.Value, nearestOf(fmt.Sprintf("%s has no column %s", kind.Name, match[3]), match[3], names)}
	}
	at := fieldKey{kind.Name, 1, column.Name}
	if match[2] != "" {
		at.n, _ = strconv.Atoi(match[2])
	}
	switch {
	case match[4] != "":
		s.units[at] = a.Value
	case strings.Contains(key[len(kind.Name):], ":"):
		return s.takeWord(a, at, *column, match[5])
	default:
		s.fields[at] = a.Value
		return checkConstant(a, *column)
	}
	return nil
}

func (s *said) word(at fieldKey, word, meaning string) {
	if s.words[at] == nil {
		s.words[at] = map[string]string{}
	}
	word = strings.TrimSpace(word)
	if len(word) > 1 && word[0] == '"' && word[len(word)-1] == '"' {
		word = word[1 : len(word)-1]
	}
	for known := range s.words[at] { // the last answer wins, however the word is written
		if strings.EqualFold(known, word) {
			delete(s.words[at], known)
		}
	}
	s.words[at][word] = meaning
}

// takeWord takes the meaning of a word of the source.
func (s *said) takeWord(a Answer, at fieldKey, column layout.Column, word string) error {
	meaning := strings.TrimSpace(strings.TrimPrefix(a.Value, "="))
	if column.Type == layout.Word && meaning != profile.None {
		steps := strings.Split(meaning, profile.Then)
		if len(steps) > 1 && at.kind != "calibrations" {
			return &WrongAnswer{a.Key, a.Value, "only the outcome of a calibration tells of several attempts"}
		}
		for i, step := range steps {
			if !column.HasWord(step) {
				return &WrongAnswer{a.Key, a.Value, nearestOf(fmt.Sprintf("%q is not one of the words for %s: %s, none", step, column.Name, strings.Join(column.Words, ", ")), step, column.Words)}
			}
			steps[i] = listedWord(column, step)
		}
		meaning = strings.Join(steps, profile.Then)
	}
	s.word(at, word, meaning)
	return nil
}

// listedWord is a word as the layout lists it.
func listedWord(column layout.Column, text string) string {
	for _, word := range column.Words {
		if strings.EqualFold(word, layout.PlainName(text)) {
			return word
		}
	}
	return text
}

// takeRows takes the kind of the rows whose column holds a value.
func (s *said) takeRows(a Answer, rest string) error {
	at := strings.Index(rest, ":")
	if strings.HasPrefix(rest, `"`) {
		if end := strings.Index(rest[1:], `"`); end >= 0 {
			if colon := strings.Index(rest[end+2:], ":"); colon >= 0 {
				at = end + 2 + colon
			}
		}
	}
	if at < 0 {
		return &WrongAnswer{a.Key, a.Value, "names no value: write it as rows COLUMN: VALUE"}
	}
	unquote := func(text string) string {
		text = strings.TrimSpace(text)
		if len(text) > 1 && text[0] == '"' && text[len(text)-1] == '"' {
			return text[1 : len(text)-1]
		}
		return text
	}
	one := rowAnswer{column: unquote(rest[:at]), value: unquote(rest[at+1:]), kind: strings.TrimSpace(a.Value)}
	if match := regexp.MustCompile(`^([a-z_]+)\[([1-9]\d?)\]$`).FindStringSubmatch(one.kind); match != nil {
		one.kind = match[1]
		one.n, _ = strconv.Atoi(match[2])
	}
	if one.kind != profile.None && layout.KindNamed(one.kind) == nil {
		return &WrongAnswer{a.Key, a.Value, nearestOf(fmt.Sprintf("there is no kind %q; the kinds are %s, or none", one.kind, strings.Join(layout.KindNames(), ", ")), one.kind, layout.KindNames())}
	}
	s.rows = slices.DeleteFunc(s.rows, func(other rowAnswer) bool {
		return strings.EqualFold(other.column, one.column) && strings.EqualFold(other.value, one.value)
	})
	s.rows = append(s.rows, one)
	return nil
}

func (s *said) checkPlain(a Answer) error {
	wants := map[string][]string{"date_order": {"mdy", "dmy", "ymd"}, "decimal": {".", ","}}
	if words, listed := wants[a.Key]; listed && !slices.Contains(words, a.Value) {
		return &WrongAnswer{a.Key, a.Value, "it is one of " + strings.Join(words, " ")}
	}
	if a.Key == "zone" && a.Value != asWritten {
		if _, err := profile.Location(a.Value); err != nil {
			return &WrongAnswer{a.Key, a.Value, err.Error() + ", or as written"}
		}
	}
	return nil
}

// checkConstant wants a listed word where a word is given for all rows.
func checkConstant(a Answer, column layout.Column) error {
	constant, ok := strings.CutPrefix(a.Value, "=")
	constant = strings.TrimSpace(constant)
	if ok && column.Type == layout.Word && constant != "" && !column.HasWord(constant) {
		return &WrongAnswer{a.Key, a.Value, nearestOf(fmt.Sprintf("%q is not one of the words for %s: %s", constant, column.Name, strings.Join(column.Words, ", ")), constant, column.Words)}
	}
	return nil
}

func nearestOf(reason, given string, words []string) string {
	if near := profile.Nearest(given, words); near != "" {
		return reason + fmt.Sprintf("; the nearest is %s", near)
	}
	return reason
}

func nearestKey(key string) string {
	keys := append(slices.Clone(plainKeys), sharedFields...)
	if near := profile.Nearest(key, keys); near != "" {
		return "; the nearest is " + near
	}
	return ""
}

// wordsFor is what was said of the words of a field: of the record itself, of the first of its kind, of all kinds.
func (s *said) wordsFor(at fieldKey) map[string]string {
	all := map[string]string{}
	for _, key := range []fieldKey{{"", 1, at.field}, {at.kind, 1, at.field}, at} {
		for word, meaning := range s.words[key] {
			all[word] = meaning
		}
	}
	return all
}

// mentions tells whether anything was said of a record, its words apart.
func (s *said) mentions(kind string, n int) bool {
	for key, value := range s.fields {
		if key.kind == kind && key.n == n && value != profile.None {
			return true
		}
	}
	for _, one := range s.rows {
		if one.kind == kind && (one.n == n || one.n == 0 && n == 1) {
			return true
		}
	}
	return false
}

// members are the paths of JSON whose members' names are values, as the answers name them.
func (s *said) members() []string {
	var found []string
	add := func(text string) {
		for part := range strings.SplitSeq(text, " + ") {
			for rest := part; ; {
				at := strings.Index(rest, ".*")
				if at < 0 {
					break
				}
				path := strings.TrimSpace(part[:len(part)-len(rest)+at])
				if !slices.Contains(found, path) {
					found = append(found, path)
				}
				rest = rest[at+2:]
			}
		}
	}
	for _, value := range s.fields {
		add(value)
	}
	for _, value := range s.units {
		add(value)
	}
	for _, one := range s.rows {
		add(one.column)
	}
	slices.Sort(found)
	return found
}
