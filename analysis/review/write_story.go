package review

import (
	"context"
	"path/filepath"

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
	p := storyPage(s, s.Asked)
	p.File, p.About = "index.html", About{Scope: scope, Version: version}
	text, err := render(p)
	if err != nil {
		return err
	}
	if err := writeFile(filepath.Join(dir, p.File), text); err != nil {
		return err
	}
	return writeAssets(dir)
}
