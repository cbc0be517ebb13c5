package review

import (
	"bytes"
	"context"
	"embed"
	"fmt"
	"html/template"
	"io/fs"
	"os"
	"path/filepath"
)

//go:embed templates/*.html
var templateFiles embed.FS

//go:embed assets/*
var assetFiles embed.FS

// pageTemplates hold the frame and one body a kind of page.
var pageTemplates = template.Must(template.New("").Funcs(template.FuncMap{
	"clock": clock, "month": monthName, "span": spanWords, "count": count, "withRoot": withRoot,
}).ParseFS(templateFiles, "templates/*.html"))

// Write writes the pages of a review into a folder, which is made where it is not there: index.html, one page a
// section, one a flagged vehicle, and the script and stylesheet that they need. They open from disk, load nothing from
// elsewhere, and are the same to the byte for the same review.
func Write(ctx context.Context, r Review, dir string) error {
	pages, err := r.pages()
	if err != nil {
		return err
	}
	for _, p := range pages {
		if err := ctx.Err(); err != nil {
			return err
		}
		text, err := render(p)
		if err != nil {
			return err
		}
		if err := writeFile(filepath.Join(dir, filepath.FromSlash(p.File)), text); err != nil {
			return err
		}
	}
	return writeAssets(dir)
}

// render makes the text of one page.
func render(p page) ([]byte, error) {
	var text bytes.Buffer
	if err := pageTemplates.ExecuteTemplate(&text, "page.html", p); err != nil {
		return nil, fmt.Errorf("page %s: %w", p.File, err)
	}
	return text.Bytes(), nil
}

// writeAssets copies script, stylesheet and licenses.
func writeAssets(dir string) error {
	return fs.WalkDir(assetFiles, "assets", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		content, err := assetFiles.ReadFile(name)
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
