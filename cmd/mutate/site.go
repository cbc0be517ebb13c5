package main

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A site is a place in the source and what stands there instead.
type site struct {
	file     string // from the module's folder, with slashes
	line     int
	from, to int // bytes
	old, new string
}

func (s site) String() string {
	return fmt.Sprintf("%s:%d: %s -> %s", s.file, s.line, s.old, orNothing(s.new))
}

func orNothing(text string) string {
	if strings.TrimSpace(text) == "" {
		return "nothing"
	}
	return text
}

// apply gives the text with the change made.
func (s site) apply(text []byte) []byte {
	return slices.Concat(text[:s.from], []byte(s.new), text[s.to:])
}

// finders look for sites in a file of their ending.
var finders = map[string]func(text []byte) ([]site, error){".go": inGo, ".sql": inSQL}

// findSites lists all sites below the given folders and files; none given is the whole module. Tests and their data are
// what is asked about, so they are left as they are.
func findSites(module string, below []string) ([]site, error) {
	if len(below) == 0 {
		below = []string{"."}
	}
	var all []site
	for _, root := range below {
		err := filepath.WalkDir(filepath.Join(module, root), func(path string, entry fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if entry.IsDir() {
				if slices.Contains([]string{"testdata", ".git", "testkit"}, entry.Name()) {
					return fs.SkipDir
				}
				return nil
			}
			find := finders[filepath.Ext(path)]
			if find == nil || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			found, err := sitesOf(module, path, find)
			all = append(all, found...)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	return all, nil
}

func sitesOf(module, path string, find func([]byte) ([]site, error)) ([]site, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	name, err := filepath.Rel(module, path)
	if err != nil {
		return nil, err
	}
	found, err := find(text)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	for i := range found {
		s := &found[i]
		s.file, s.old = filepath.ToSlash(name), string(text[s.from:s.to])
		s.line = 1 + strings.Count(string(text[:s.from]), "\n")
	}
	return found, nil
}

// draw takes n of the sites by chance; those of SQL, which are fewer and decide more, and those of Go have equal shares.
func draw(sites []site, n int, seed uint64) []site {
	source := rand.New(rand.NewPCG(seed, 0))
	var shares [2][]site
	for _, s := range sites {
		share := 0
		if strings.HasSuffix(s.file, ".sql") {
			share = 1
		}
		shares[share] = append(shares[share], s)
	}
	for _, share := range shares {
		source.Shuffle(len(share), func(i, j int) { share[i], share[j] = share[j], share[i] })
	}
	var drawn []site
	for i := 0; len(drawn) < min(n, len(sites)); i++ {
		for _, share := range shares {
			if i < len(share) && len(drawn) < n {
				drawn = append(drawn, share[i])
			}
		}
	}
	return drawn
}
