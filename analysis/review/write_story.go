package review

import (
	"context"
	"errors"
	"path/filepath"

	"plumbline/analysis/exhibit/page"
	"plumbline/analysis/folder"
	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// WriteStory writes one vehicle's story as a page, index.html, with what it needs into a folder, which is made where it
// is not there. The history is the one that the story was traced in.
func WriteStory(ctx context.Context, h *history.History, s quality.Story, version, dir string) error {
	scope, err := quality.ReadScope(ctx, h, quality.Filter{})
	if err != nil {
		return err
	}
	p, err := storyPage(s, s.Asked)
	if err != nil {
		return err
	}
	p.File, p.Frame = "index.html", frame(About{Scope: scope, Version: version}, nil)
	text, err := page.Render(p)
	if err != nil {
		return err
	}
	return folder.Into(dir, func(fresh string) error {
		return errors.Join(writeFile(filepath.Join(fresh, p.File), text), writeAssets(fresh))
	})
}
