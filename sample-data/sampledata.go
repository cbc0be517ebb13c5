// Package sampledata carries the demo scenario: an invented history of a group
// of three shops in the record layout, and the job list of a fourth shop as
// its front desk keeps it. Nothing in it belongs to anybody. The records are
// made by cmd/scenario, which also tells their story.
package sampledata

import (
	"compress/gzip"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

//go:generate go run ../cmd/scenario --gzip --out records --foreign foreign

//go:embed records/*.csv.gz
var files embed.FS

// Records is the history: one gzip-compressed CSV file a kind, jobs.csv.gz and
// so on.
func Records() fs.FS {
	sub, err := fs.Sub(files, "records")
	if err != nil {
		panic(err) // the folder is embedded
	}
	return sub
}

// Unpack writes the records into dir as plain CSV files and returns their
// paths in the order of their names. The folder must exist.
func Unpack(dir string) ([]string, error) {
	packed, err := fs.Glob(Records(), "*.csv.gz")
	if err != nil {
		return nil, fmt.Errorf("list sample records: %w", err)
	}
	paths := make([]string, len(packed))
	for i, name := range packed {
		paths[i] = filepath.Join(dir, strings.TrimSuffix(name, ".gz"))
		if err := unpack(name, paths[i]); err != nil {
			return nil, fmt.Errorf("unpack sample records %s: %w", name, err)
		}
	}
	return paths, nil
}

func unpack(name, path string) error {
	packed, err := Records().Open(name)
	if err != nil {
		return err
	}
	defer packed.Close()
	plain, err := gzip.NewReader(packed)
	if err != nil {
		return err
	}
	out, err := os.Create(path)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, plain)
	return errors.Join(err, out.Close())
}
