// Package intake brings files into the history: it finds out what a file is, has the engine read it, checks every
// row against the record layout, settles it with what is there, and keeps the balance and the rows set aside.
//
// What a value means stands once in queries/intake/readings.sql, which kinds and columns there are once in Kinds. The
// history itself, its lock and its transactions belong to package history; what the records say to package quality.
package intake

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"plumbline/analysis/folder"
	"plumbline/analysis/history"
	"plumbline/analysis/intake/profile"
)

// Options are what the user asks of an import.
type Options struct {
	Files       []string
	Kind        string    // what the files hold; empty: by name or header
	Profile     string    // file of a mapping profile; empty: the record layout
	Zone        string    // moments with an offset are converted to it; empty: the wall clock is kept as written
	DryRun      bool      // report what would happen and keep nothing
	Now         time.Time // wall clock
	ToolVersion string
	Stdin       io.Reader                             // what the file "-" is; nil: there is none
	Progress    func(stage string, done, total int64) // in bytes; nil: nobody is watching

	typed *typed // in place of files
}

// A Result is what an import did.
type Result struct {
	Import  int // its number in the journal; with DryRun the number that it would have had
	Files   []FileBalance
	Notices []string // what was skipped, ignored or assumed, a sentence each

	Unattached     []string // records that belong to nothing on record, a sentence a kind
	MostUnattached []string // kinds of which that is more than half of what the import brought
}

// A FileBalance is what became of the rows of one kind in one file. Read is the sum of the other four.
type FileBalance struct {
	File, Sheet, Kind, Encoding               string
	Read, Added, Updated, Unchanged, Rejected int64
}

// importing is one run of the import.
type importing struct {
	ctx      context.Context
	h        *history.History
	o        Options
	dir      string           // for temporary files
	profile  *profile.Profile // nil: the record layout
	number   int
	fromFile int // of the next part
	done     int64
	total    int64
	result   Result
}

// errRehearsal rolls back a dry run.
var errRehearsal = errors.New("dry run")

// Import reads the files into the history in one transaction: all of them, or, where one is refused, none. A refusal
// is a *Refusal.
func Import(ctx context.Context, h *history.History, o Options) (Result, error) {
	dir, err := os.MkdirTemp("", "plumbline-import-")
	if err != nil {
		return Result{}, fmt.Errorf("import: %w", err)
	}
	defer folder.Remove(dir)
	im := &importing{ctx: ctx, h: h, o: o, dir: dir}
	err = h.Change(ctx, im.all)
	if errors.Is(err, errRehearsal) {
		err = nil
	}
	if err != nil {
		return Result{}, err
	}
	return im.result, nil
}

// all is the whole import, inside its transaction.
func (im *importing) all() error {
	if im.o.Profile != "" {
		profile, err := profile.Read(im.o.Profile)
		if err != nil {
			return err
		}
		im.profile = profile
		im.o.Zone = cmp.Or(im.o.Zone, profile.Source.Zone)
	}
	files, err := im.files()
	if err != nil {
		return err
	}
	if err := im.begin(); err != nil {
		return err
	}
	for _, file := range files {
		if err := im.file(file); err != nil {
			return vanished(file, err)
		}
		im.done += file.Bytes
		im.progress(file.Name, 0)
	}
	if err := im.tellMoments(); err != nil {
		return err
	}
	if err := im.tellUnattached(); err != nil {
		return err
	}
	if len(im.result.Files) == 0 {
		return errors.New("import: there was nothing to import in the files given")
	}
	if im.o.DryRun {
		return errRehearsal
	}
	return im.h.Exec(im.ctx, "intake/note_latest_event", nil)
}

// begin enters the import in the journal and lays out what its statements need.
func (im *importing) begin() error {
	type numbers struct {
		Import   int
		FromFile int
	}
	next, err := history.Select[numbers](im.ctx, im.h, "intake/next_import", nil)
	if err != nil {
		return err
	}
	im.number, im.fromFile = next[0].Import, next[0].FromFile
	im.result.Import = im.number
	for _, macros := range []string{"intake/readings", "intake/foreign_readings", "intake/brought"} {
		if err := im.h.Exec(im.ctx, macros, nil); err != nil {
			return err
		}
	}
	if err := im.layZone(); err != nil {
		return err
	}
	return im.h.Exec(im.ctx, "intake/note_import", history.Params{
		"import": im.number, "at": im.now(), "zone": orNull(im.o.Zone), "tool_version": im.o.ToolVersion})
}

// now is the import's moment on the wall clock of the zone that it names.
func (im *importing) now() time.Time {
	if found, err := profile.Location(im.o.Zone); im.o.Zone != "" && err == nil {
		return im.o.Now.In(found)
	}
	return im.o.Now
}

// part takes one part into the history and notes its balance.
func (im *importing) part(p *part) error {
	unknown, err := p.settleHeader()
	if err != nil {
		return err
	}
	for _, name := range unknown {
		im.notice("%s: the column %q is not in the record layout; it was ignored", p.Name(), name)
	}
	return im.enter(p)
}

// enter takes a part whose columns are settled, and notes its balance.
func (im *importing) enter(p *part) error {
	rules, err := im.rulesOf(p)
	if err != nil {
		return err
	}
	counts, err := im.take(p, rules)
	if err != nil {
		return err
	}
	im.result.Files = append(im.result.Files, FileBalance{p.File, p.Sheet, p.kind.Name, p.Encoding,
		counts.Read, counts.Added, counts.Updated, counts.Unchanged, counts.Rejected})
	err = im.h.Exec(im.ctx, "intake/note_file", history.Params{
		"from_file": im.fromFile, "import": im.number, "file": filepath.ToSlash(p.File), "sheet": orNull(p.Sheet), "kind": p.kind.Name,
		"sha256": p.SHA256, "bytes": p.Bytes, "encoding": orNull(p.Encoding), "profile": im.profileName(),
		"read": counts.Read, "added": counts.Added, "updated": counts.Updated, "unchanged": counts.Unchanged,
		"rejected": counts.Rejected, "rules": rules})
	if err != nil {
		return err
	}
	im.fromFile++
	return im.noteBrought(p, im.fromFile-1)
}

// noteBrought notes a file whose records the import has brought, or met as they were.
func (im *importing) noteBrought(p *part, fromFile int) error {
	return im.h.Exec(im.ctx, "intake/note_brought", history.Params{"kind": p.kind.Name, "from_file": fromFile})
}

// take stages and settles a part, or takes it in one pass where that is possible.
func (im *importing) take(p *part, rules string) (tally, error) {
	if counts, known, err := im.takeKnown(p, rules); err != nil || known {
		return counts, err
	}
	if text, ok := p.source.(delimitedRows); ok {
		counts, taken, err := im.takeDirectly(p, text.Delimited)
		if err != nil || taken {
			return counts, err
		}
	}
	if err := p.source.stage(im, p); err != nil {
		return tally{}, err
	}
	return im.settle(p, im.fromFile)
}

func (im *importing) notice(format string, values ...any) {
	im.result.Notices = append(im.result.Notices, fmt.Sprintf(format, values...))
}

func (im *importing) progress(stage string, part int64) {
	if im.o.Progress != nil {
		im.o.Progress(stage, im.done+part, im.total)
	}
}

// profileName is the profile's name, null for the record layout.
func (im *importing) profileName() *string {
	if im.profile == nil {
		return nil
	}
	return &im.profile.Name
}

// orNull makes an empty text null.
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
