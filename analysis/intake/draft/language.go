package draft

import (
	"embed"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"unicode"

	"github.com/pelletier/go-toml/v2"
	"golang.org/x/text/runes"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"

	"plumbline/analysis/layout"
)

// The words of each language are a file; another language is another file.
//
//go:embed words/*.toml
var languageFiles embed.FS

// A language is the names of columns and the words in their cells as shops of a language write them, plain: in lower case and
// without accents. Names are their letters and digits alone.
type language struct {
	None       []string                     `toml:"none"`       // there is nothing: no codes
	YesNo      []string                     `toml:"yes_no"`     // answers to any question, which do not tell which
	Ditto      []string                     `toml:"ditto"`      // as above
	Pre        []string                     `toml:"pre"`        // of the scan before
	Post       []string                     `toml:"post"`       // of the scan after
	First      []string                     `toml:"first"`      // of the first attempt
	Names      map[string][]string          `toml:"names"`      // by kind.column
	Words      map[string]map[string]string `toml:"words"`      // by column: the shop's word, and the layout's
	Quantities map[string][]string          `toml:"quantities"` // names of what is measured, without the unit
	Wheels     map[string]string            `toml:"wheels"`     // the letters of a wheel, and ours
}

// spoken is all languages in one.
var spoken = readLanguages(languageFiles)

func readLanguages(files fs.FS) language {
	all := language{Names: map[string][]string{}, Words: map[string]map[string]string{}, Quantities: map[string][]string{}, Wheels: map[string]string{}}
	names, err := fs.Glob(files, "words/*.toml")
	if err != nil {
		panic(err) // the pattern is our own
	}
	slices.SortFunc(names, func(a, b string) int { // where two languages differ, English, the layout's own, goes before
		return strings.Compare(strings.Replace(path.Base(a), "en", "", 1), strings.Replace(path.Base(b), "en", "", 1))
	})
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		var one language
		if err == nil {
			err = toml.Unmarshal(text, &one)
		}
		if err != nil {
			panic(name + ": " + err.Error()) // the files are our own, and tested
		}
		all.add(one)
	}
	return all
}

func (l *language) add(other language) {
	l.None, l.Ditto = append(l.None, other.None...), append(l.Ditto, other.Ditto...)
	l.YesNo = append(l.YesNo, other.YesNo...)
	l.Pre, l.Post, l.First = append(l.Pre, other.Pre...), append(l.Post, other.Post...), append(l.First, other.First...)
	for name, words := range other.Names {
		l.Names[name] = append(l.Names[name], words...)
	}
	for quantity, names := range other.Quantities {
		l.Quantities[quantity] = append(l.Quantities[quantity], names...)
	}
	for column, words := range other.Words {
		if l.Words[column] == nil {
			l.Words[column] = map[string]string{}
		}
		for word, meaning := range words {
			if _, known := l.Words[column][word]; !known {
				l.Words[column][word] = meaning
			}
		}
	}
	for letters, wheel := range other.Wheels {
		l.Wheels[letters] = wheel
	}
}

// plain is a text in lower case, without accents, with single blanks.
func plain(text string) string {
	folded, _, err := transform.String(transform.Chain(norm.NFD, runes.Remove(runes.In(unicode.Mn)), norm.NFC), text)
	if err != nil {
		folded = text
	}
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.ToLower(folded), "ß", "ss")), " ")
}

// isNone tells whether a cell says that there is nothing.
func isNone(text string) bool { return slices.Contains(spoken.None, plain(text)) }

// wordFor is the layout's word for a text, empty where neither the layout nor the trade knows it. What two kinds word in two
// ways, such as an outcome, is looked up in the column's own words.
func wordFor(column layout.Column, text string) string {
	said := plain(text)
	for _, word := range column.Words {
		if strings.EqualFold(word, layout.PlainName(said)) {
			return word
		}
	}
	meaning := spoken.Words[column.Name][said]
	if slices.Contains(column.Words, meaning) || meaning == "failed then completed" && slices.Contains(column.Words, "completed") {
		return meaning
	}
	if twin := map[string]string{"completed": "passed", "passed": "completed"}[meaning]; slices.Contains(column.Words, twin) {
		return twin
	}
	return ""
}

// likeliest lists the words of a column, the most like a text first.
func likeliest(column layout.Column, text string) []string {
	said := strings.FieldsFunc(plain(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	score := map[string]int{}
	add := func(phrase, word string) {
		for _, token := range strings.FieldsFunc(plain(phrase), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
			for _, own := range said {
				switch {
				case own == token:
					score[word] = max(score[word], 10+len(token))
				case len(own) > 2 && len(token) > 2 && (strings.HasPrefix(own, token) || strings.HasPrefix(token, own)):
					score[word] = max(score[word], 5+min(len(own), len(token)))
				}
			}
		}
	}
	for _, word := range column.Words {
		add(strings.ReplaceAll(word, "_", " "), word)
	}
	for _, phrase := range slices.Sorted(maps.Keys(spoken.Words[column.Name])) {
		add(phrase, spoken.Words[column.Name][phrase])
	}
	words := slices.Clone(column.Words)
	slices.SortStableFunc(words, func(a, b string) int { return score[b] - score[a] })
	return words
}
