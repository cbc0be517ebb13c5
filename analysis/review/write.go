package review

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"golang.org/x/sync/errgroup"

	"plumbline/analysis/exhibit/page"

	"plumbline/analysis/folder"
)

// Write writes the pages of a review into a folder, which is made where it is not there: index.html, one page a
// section, one a flagged vehicle, and the script and stylesheet that they need. They open from disk, load nothing from
// elsewhere, and are the same to the byte for the same review.
//
// All of it is there or nothing, with what more writes beside the pages: on an error the folder is as it was. Pages that an
// earlier review has written there and this one has not are removed. Those that are no longer as they were written stay, and
// come back by name, with slashes, in order.
func Write(ctx context.Context, r Review, dir string, more ...func(dir string) error) (stale []string, err error) {
	files, err := r.files(ctx)
	if err != nil {
		return nil, err
	}
	written := listOf(files)
	earlier, err := readList(dir)
	if err != nil {
		return nil, fmt.Errorf("write the review to %s: %w", dir, err)
	}
	err = folder.Into(dir, func(fresh string) error {
		var all errgroup.Group
		// with those before, so that they are known to be ours even if they cannot be removed
		all.Go(func() error { return earlier.with(written).write(fresh) })
		all.Go(func() error { return writePages(ctx, files, fresh) })
		all.Go(func() error { return writeKnown(fresh, r.Known) })
		for _, write := range more {
			all.Go(func() error { return write(fresh) })
		}
		return all.Wait()
	})
	if err != nil {
		return nil, fmt.Errorf("write the review to %s: %w", dir, err)
	}
	left, err := earlier.clear(dir, written)
	if err == nil {
		err = left.with(written).write(dir)
	}
	if err != nil {
		return nil, fmt.Errorf("remove pages of an earlier review from %s: %w", dir, err)
	}
	return slices.Sorted(maps.Keys(left.names())), nil
}

// A pageFile is a page as it is written.
type pageFile struct {
	name    string // with slashes
	content []byte
}

// files makes the text of every page.
func (r Review) files(ctx context.Context) ([]pageFile, error) {
	pages, err := r.pages()
	if err != nil {
		return nil, err
	}
	var files []pageFile
	for _, p := range pages {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		text, err := page.Render(p)
		if err != nil {
			return nil, err
		}
		files = append(files, pageFile{p.File, text})
	}
	return files, nil
}

// writePages writes the pages and what they need.
func writePages(ctx context.Context, files []pageFile, dir string) error {
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := writeFile(filepath.Join(dir, filepath.FromSlash(f.name)), f.content); err != nil {
			return err
		}
	}
	return writeAssets(dir)
}

// writeAssets copies script, stylesheet and licenses.
func writeAssets(dir string) error {
	return fs.WalkDir(page.Assets(), "assets", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := fs.ReadFile(page.Assets(), name)
		if err != nil {
			return err
		}
		return writeFile(filepath.Join(dir, filepath.FromSlash(name)), content)
	})
}

func writeFile(name string, content []byte) error {
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return fmt.Errorf("write the review: %w", err)
	}
	if err := os.WriteFile(name, content, 0o644); err != nil {
		return fmt.Errorf("write the review: %w", err)
	}
	return nil
}
