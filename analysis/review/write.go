package review

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"plumbline/analysis/exhibit/page"
)

// Write writes the pages of a review into a folder, which is made where it is not there: index.html, one page a
// section, one a flagged vehicle, and the script and stylesheet that they need. They open from disk, load nothing from
// elsewhere, and are the same to the byte for the same review.
//
// Pages that an earlier review has written there and this one has not are removed. Those that are no longer as they were
// written stay, and come back by name, with slashes, in order.
func Write(ctx context.Context, r Review, dir string) (stale []string, err error) {
	files, err := r.files(ctx)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("write the review: %w", err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("write the review: %w", err)
	}
	defer root.Close()
	written := listOf(files)
	earlier, err := readList(root)
	if err == nil {
		err = earlier.with(written).write(root) // before the pages, so that they are known to be ours even if the rest fails
	}
	if err != nil {
		return nil, fmt.Errorf("write the review to %s: %w", dir, err)
	}
	if err := writePages(ctx, files, dir); err != nil {
		return nil, err
	}
	left, err := earlier.clear(root, written)
	if err == nil {
		err = left.with(written).write(root)
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
