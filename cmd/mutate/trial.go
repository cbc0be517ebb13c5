package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"time"
)

// A trial runs tests with one file changed.
type trial struct {
	house house
	limit time.Duration
	tests string          // an expression that names them; empty is all
	sound map[string]bool // packages whose tests pass as the source stands
}

// A fate is what became of a change.
type fate struct {
	word string // noticed, survived or unbuilt
	by   string // the package that noticed
}

var (
	survived = fate{word: "SURVIVED"}
	unbuilt  = fate{word: "unbuilt"} // the compiler refuses it: no change that anybody could make
)

// run makes the change and asks package after package.
func (t *trial) run(ctx context.Context, s site) (fate, error) {
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return fate{}, err
	}
	defer os.RemoveAll(folder)
	overlay, err := lay(folder, filepath.Join(t.house.folder, filepath.FromSlash(s.file)), s)
	if err != nil {
		return fate{}, err
	}
	for _, name := range t.house.noticing(s.file) {
		if err := t.mustPass(ctx, name); err != nil {
			return fate{}, err
		}
		output, err := t.test(ctx, name, "-overlay="+overlay)
		var failed *exec.ExitError
		switch {
		case err == nil:
			continue
		case ctx.Err() != nil:
			return fate{}, ctx.Err()
		case !errors.As(err, &failed):
			return fate{}, err
		case isRefused(output):
			return unbuilt, nil
		}
		return fate{"noticed", "  by " + name}, nil
	}
	return survived, nil
}

// refusals are what the compiler, and the engine for a query, say of a text that means nothing to them.
var refusals = []string{"[build failed]", "[setup failed]", "Parser Error", "Binder Error", "Catalog Error"}

func isRefused(output []byte) bool {
	return slices.ContainsFunc(refusals, func(said string) bool { return bytes.Contains(output, []byte(said)) })
}

// lay writes the changed file and the list that lays it over the tree.
func lay(folder, file string, s site) (string, error) {
	text, err := os.ReadFile(file)
	if err != nil {
		return "", err
	}
	changed, overlay := filepath.Join(folder, filepath.Base(file)), filepath.Join(folder, "overlay.json")
	if err := os.WriteFile(changed, s.apply(text), 0o600); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]map[string]string{"Replace": {file: changed}})
	if err != nil {
		return "", err
	}
	return overlay, os.WriteFile(overlay, list, 0o600)
}

// mustPass refuses to go on where tests fail without any change: such tests notice everything.
func (t *trial) mustPass(ctx context.Context, name string) error {
	if t.sound[name] {
		return nil
	}
	if output, err := t.test(ctx, name); err != nil {
		return fmt.Errorf("the tests of %s fail as the source stands: %w\n%s", name, err, output)
	}
	if t.sound == nil {
		t.sound = map[string]bool{}
	}
	t.sound[name] = true
	return nil
}

func (t *trial) test(ctx context.Context, name string, more ...string) ([]byte, error) {
	ctx, cancel := context.WithTimeout(ctx, t.limit+time.Minute) // what go test itself does not end
	defer cancel()
	arguments := append([]string{"test", "-failfast", "-vet=off", "-timeout=" + t.limit.String(), "-run=" + t.tests}, more...)
	command := exec.CommandContext(ctx, "go", append(arguments, name)...)
	command.Dir = t.house.folder
	return command.CombinedOutput()
}
