package main

import (
	"time"

	"github.com/schollz/progressbar/v3"
)

// progress draws how far a long piece of work has come, only where a person watches and only once it has lasted.
type progress struct {
	a       *app
	what    string
	inSteps bool // done and total are not bytes
	started time.Time
	bar     *progressbar.ProgressBar
}

// patience is how long a piece of work may last before it says how far it is.
const patience = time.Second

func (a *app) newProgress(what string) *progress {
	return &progress{a: a, what: what, started: time.Now()}
}

// show draws the state of the work; stage is the part that it is at.
func (p *progress) show(stage string, done, total int64) {
	if !p.a.errIsShown || time.Since(p.started) < patience {
		return
	}
	if p.bar == nil {
		p.bar = progressbar.NewOptions64(total, progressbar.OptionSetWriter(p.a.drawn),
			progressbar.OptionShowBytes(!p.inSteps), progressbar.OptionClearOnFinish(), progressbar.OptionSetWidth(30))
	}
	p.bar.Describe(p.what + " " + stage)
	// A bar that cannot be drawn is no reason to stop the work.
	_ = p.bar.Set64(done)
}

// clear takes the bar away, so that what follows stands on a clean line.
func (p *progress) clear() {
	if p.bar != nil {
		_ = p.bar.Clear()
	}
}
