package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// tells are sentences that only one licence has, by its short name (SPDX).
var tells = []struct{ sentence, licence string }{
	{"Apache License Version 2.0, January 2004", "Apache-2.0"},
	{"Mozilla Public License Version 2.0", "MPL-2.0"},
	{"Neither the name of", "BSD-3-Clause"},
	{"may be used to endorse or promote products", "BSD-3-Clause"},
	{"Redistributions in binary form must reproduce", "BSD-2-Clause"},
	{"Permission to use, copy, modify, and/or distribute this software", "ISC"},
	{"The above copyright notice and this permission notice shall be included", "MIT"},
}

// named finds out which licences a text holds. One that holds none of these is an error: somebody has to read it.
func named(name, text string) (work, error) {
	words := strings.Join(strings.Fields(text), " ")
	var held []string
	for _, tell := range tells {
		if strings.Contains(words, tell.sentence) && !slices.Contains(held, tell.licence) {
			held = append(held, tell.licence)
		}
	}
	if slices.Contains(held, "BSD-3-Clause") { // which holds the sentences of the shorter one
		held = slices.DeleteFunc(held, func(licence string) bool { return licence == "BSD-2-Clause" })
	}
	if held == nil {
		return work{}, fmt.Errorf("%s: no licence is known by its text, %d characters long", name, len(text))
	}
	return work{name, strings.Join(held, " and "), text}, nil
}

// engine is what the database driver links in without a licence text of its own.
// Source: the engine's repository, file LICENSE; the years are those of the release, from memory.
const engine = `Copyright 2018-2024 Stichting DuckDB Foundation

Permission is hereby granted, free of charge, to any person obtaining a copy of this software and
associated documentation files (the "Software"), to deal in the Software without restriction,
including without limitation the rights to use, copy, modify, merge, publish, distribute,
sublicense, and/or sell copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all copies or substantial
portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR IMPLIED, INCLUDING BUT
NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY, FITNESS FOR A PARTICULAR PURPOSE AND
NONINFRINGEMENT. IN NO EVENT SHALL THE AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES
OR OTHER LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM, OUT OF OR IN
CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE SOFTWARE.

The engine holds code of others in turn, listed with their licences in the folder third_party of its
source.`

// charts is the folder of the script that draws charts, with its licence files.
const charts = "analysis/exhibit/page/assets"

// keptHere are the works that no module brings: the engine, the script of the charts, and the language's own library.
func keptHere(repository string) ([]work, error) {
	works := []work{{"DuckDB 1.1.3, the engine, linked in by go-duckdb", "MIT", engine}}
	for _, kept := range []struct{ name, file string }{
		{"Apache ECharts 5.6.0 (" + charts + "/echarts.min.js)", "LICENSE"},
		{"d3, parts of it within Apache ECharts", "LICENSE-d3"},
	} {
		text, err := os.ReadFile(filepath.Join(repository, filepath.FromSlash(charts), kept.file))
		if err != nil {
			return nil, err
		}
		w, err := named(kept.name, plainText(string(text)))
		if err != nil {
			return nil, err
		}
		works = append(works, w)
	}
	notice, err := os.ReadFile(filepath.Join(repository, filepath.FromSlash(charts), "NOTICE"))
	if err != nil {
		return nil, err
	}
	works[1].text = plainText(string(notice)) + "\n\n" + works[1].text
	return works, nil
}
