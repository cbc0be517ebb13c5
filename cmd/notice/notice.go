package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// A work is something that is built in, with the text of its licence.
type work struct{ name, licence, text string }

const head = `plumbline is licensed under the Apache License, Version 2.0; see LICENSE.

Built into it is the work of others, listed here with their licences. go run ./cmd/notice writes this file.
`

// notice gives the whole text: a list, then every licence text once, with the works that it covers.
func notice(repository string) (string, error) {
	works, err := linked(repository)
	if err != nil {
		return "", err
	}
	kept, err := keptHere(repository)
	if err != nil {
		return "", err
	}
	works = append(kept, works...)
	var list, texts strings.Builder
	for _, w := range works {
		fmt.Fprintf(&list, "    %s: %s\n", w.name, w.licence)
	}
	for i, w := range works {
		same := func(other work) bool { return other.text == w.text }
		if slices.ContainsFunc(works[:i], same) {
			continue
		}
		for _, other := range works[i:] {
			if same(other) {
				fmt.Fprintf(&texts, "\n==== %s", other.name)
			}
		}
		fmt.Fprintf(&texts, "\n\n%s\n", w.text)
	}
	return head + "\n" + list.String() + texts.String(), nil
}

// linked lists the modules whose packages the command is built from, on any of the systems that it is built for.
func linked(repository string) ([]work, error) {
	modules := map[string]string{}
	for _, system := range []string{"linux", "windows", "darwin"} {
		list := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}|{{.Dir}}{{end}}{{end}}", "./cmd/plumbline")
		list.Dir, list.Env = repository, append(os.Environ(), "GOOS="+system, "CGO_ENABLED=1")
		text, err := list.Output()
		if err != nil {
			return nil, fmt.Errorf("list the packages for %s: %w", system, err)
		}
		for line := range strings.Lines(string(text)) {
			if name, folder, ok := strings.Cut(strings.TrimSpace(line), "|"); ok {
				modules[name] = folder
			}
		}
	}
	var works []work
	for name, folder := range modules {
		w, err := licensed(name, folder)
		if err != nil {
			return nil, err
		}
		works = append(works, w)
	}
	slices.SortFunc(works, func(a, b work) int { return strings.Compare(a.name, b.name) })
	return works, nil
}

// licensed reads the licence texts in a module's folder.
func licensed(name, folder string) (work, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return work{}, fmt.Errorf("%s: %w", name, err)
	}
	var texts []string
	for _, entry := range entries {
		plain, _, _ := strings.Cut(strings.ToUpper(entry.Name()), ".")
		if !slices.Contains([]string{"LICENSE", "LICENCE", "COPYING", "NOTICE", "PATENTS"}, plain) {
			continue
		}
		text, err := os.ReadFile(filepath.Join(folder, entry.Name()))
		if err != nil {
			return work{}, fmt.Errorf("%s: %w", name, err)
		}
		texts = append(texts, plainText(string(text)))
	}
	return named(name, strings.Join(texts, "\n\n"))
}

// plainText is the text with line ends of one kind and nothing at the ends of lines.
func plainText(text string) string {
	lines := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " \t")
	}
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}
