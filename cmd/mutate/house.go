package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
)

// A house is the module's packages and who uses whom, tests included.
type house struct {
	folder string
	owner  map[string]string   // a folder, from the module's, to its package
	users  map[string][]string // a package to those that import it, in code or in tests
	tested map[string]bool     // those that have tests, and are to be asked
}

func readHouse(ctx context.Context, module string, asked *regexp.Regexp) (house, error) {
	folder, err := filepath.Abs(module)
	if err != nil {
		return house{}, err
	}
	h := house{folder, map[string]string{}, map[string][]string{}, map[string]bool{}}
	list := exec.CommandContext(ctx, "go", "list", "-json=ImportPath,Dir,Imports,TestImports,XTestImports,TestGoFiles,XTestGoFiles", "./...")
	list.Dir = folder
	text, err := list.Output()
	if err != nil {
		return h, err
	}
	for packages := json.NewDecoder(bytes.NewReader(text)); ; {
		var p struct {
			ImportPath, Dir                                               string
			Imports, TestImports, XTestImports, TestGoFiles, XTestGoFiles []string
		}
		if err := packages.Decode(&p); errors.Is(err, io.EOF) {
			return h, nil
		} else if err != nil {
			return h, err
		}
		name, err := filepath.Rel(folder, p.Dir)
		if err != nil {
			return h, err
		}
		h.owner[filepath.ToSlash(name)] = p.ImportPath
		h.tested[p.ImportPath] = asked.MatchString(p.ImportPath) && len(p.TestGoFiles)+len(p.XTestGoFiles) > 0
		for _, used := range slices.Concat(p.Imports, p.TestImports, p.XTestImports) {
			if !slices.Contains(h.users[used], p.ImportPath) {
				h.users[used] = append(h.users[used], p.ImportPath)
			}
		}
	}
}

// noticing lists the packages whose tests a change to a file could reach: that of the file first, then its users, then
// theirs.
func (h house) noticing(file string) []string {
	folder := path.Dir(file)
	for h.owner[folder] == "" && folder != "." { // a query belongs to the package that embeds it
		folder = path.Dir(folder)
	}
	reached := []string{h.owner[folder]}
	for i := 0; i < len(reached); i++ {
		for _, user := range h.users[reached[i]] {
			if !slices.Contains(reached, user) {
				reached = append(reached, user)
			}
		}
	}
	return slices.DeleteFunc(reached, func(p string) bool { return !h.tested[p] })
}
