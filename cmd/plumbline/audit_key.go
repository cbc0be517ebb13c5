package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"plumbline/analysis/audit/proof"
)

// takeKey loads the key that is named, or makes it where that is asked for. Masks without a key named get one that is
// kept beside the history, so that the next bundle masks alike. A new key is written only when the bundle is done.
func (f *auditFlags) takeKey(a *app) error {
	path, mayMake := f.keyFile, f.newKey
	if path == "" && len(f.options.Mask) > 0 {
		path, mayMake = a.historyPath+".key", true
	}
	if path == "" {
		return nil
	}
	_, err := os.Stat(path)
	switch {
	case errors.Is(err, os.ErrNotExist) && mayMake:
		return f.newKeyAt(path)
	case errors.Is(err, os.ErrNotExist):
		return fmt.Errorf("%s: there is no such key file; add --new-key to make it", path)
	case f.newKey:
		return fmt.Errorf("%s is there already: a key that is overwritten is lost; leave --new-key out to use it", path)
	}
	f.options.Key, err = proof.LoadKey(path)
	return err
}

// newKeyAt makes a key in memory, for a file that is to be made with the bundle. A public half that has lost its key is
// left alone: the insurer may have been given it.
func (f *auditFlags) newKeyAt(path string) (err error) {
	folder := filepath.Dir(path)
	if _, err := os.Stat(folder); err != nil {
		return fmt.Errorf("%s: there is no folder %s; make it first, or name another key with --key", path, folder)
	}
	if _, err := os.Lstat(path + ".pub"); err == nil {
		return fmt.Errorf("%s.pub is there, and the key that it belongs to is not; put %s back beside it, "+
			"or move %s.pub away to have a new key made", path, path, path)
	}
	f.options.SaveKey = path
	f.options.Key, err = proof.NewKey()
	return err
}

// tellKey tells of a key that was made.
func (f *auditFlags) tellKey(a *app) {
	if path := f.options.SaveKey; path != "" {
		fmt.Fprintf(a.err, "a key was made: %s; keep it safe, masks and signatures hang on it, and hand out %s.pub\n", path, path)
	}
}
