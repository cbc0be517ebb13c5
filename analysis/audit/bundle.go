package audit

import (
	"context"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"plumbline/analysis/audit/document"
	"plumbline/analysis/audit/mask"
	"plumbline/analysis/audit/policy"
	"plumbline/analysis/audit/proof"
	"plumbline/analysis/audit/record"
	"plumbline/analysis/audit/sample"
	"plumbline/analysis/folder"
	"plumbline/analysis/history"
)

// Bundle makes the audit bundle of one insurer as a folder. It sets the policy, looks back on the history and
// reads it; the history is not changed. What comes of the same history and the same options is the same to the
// byte, wherever and whenever it is made.
//
// An InsurerError or a NoJobsError tells that there is nothing to bundle. On any error no folder is left, and no key.
func Bundle(ctx context.Context, h *history.History, o Options) (*Result, error) {
	o, err := o.check()
	if err != nil {
		return nil, err
	}
	if err := folder.Free(o.Out); err != nil {
		return nil, err // before the long part
	}
	b, err := begin(ctx, h, o)
	if err != nil {
		return nil, err
	}
	defer b.close()
	if err := folder.Write(o.Out, b.write); err != nil {
		if b.keySaved {
			err = errors.Join(err, proof.RemoveKey(o.SaveKey))
		}
		return nil, err
	}
	return b.result(), nil
}

// making is a bundle in the making.
type making struct {
	ctx context.Context
	h   *history.History
	o   Options

	insurer string
	notices []string
	asked   history.Asked
	due     policy.Due

	dir      string
	book     *workbook
	leaves   *proof.Leaves
	mask     *mask.Masker
	docs     *document.Folder
	rows     []proof.RowCount
	tally    *policy.Tally
	kinds    map[findingKind]int64
	known    map[record.Job]identity
	lacks    []lacking
	sheets   *sheetNames
	journal  []proof.JournalFile
	sample   *sample.Sample
	root     string
	complete policy.Completeness
	found    *document.Report
	keySaved bool
}

// begin looks back and finds the insurer's jobs.
func begin(ctx context.Context, h *history.History, o Options) (*making, error) {
	b := &making{ctx: ctx, h: h, o: o, leaves: proof.NewLeaves(), kinds: map[findingKind]int64{}, known: map[record.Job]identity{},
		sheets: newSheetNames()}
	err := LookBack(ctx, h, o.Policy, o.Asked)
	if err != nil {
		return nil, err
	}
	if b.asked, err = h.View(ctx); err != nil {
		return nil, err
	}
	if b.insurer, b.notices, err = FindInsurer(ctx, h, o.Insurer); err != nil {
		return nil, err
	}
	if b.due, err = o.scope(b.insurer).Set(ctx, h); err != nil {
		return nil, err
	}
	if b.due.Jobs == 0 {
		return nil, b.noJobs()
	}
	b.tally = policy.NewTally(b.due)
	if err := b.makeMask(); err != nil {
		return nil, err
	}
	if err := b.narrowPolicy(); err != nil {
		return nil, err
	}
	if o.Documents != "" {
		b.docs, err = document.Open(ctx, h, o.Documents)
	}
	return b, err
}

// makeMask keys the masks to this bundle, and learns what to look for.
func (b *making) makeMask() error {
	digest, err := history.One[string](b.ctx, b.h, "measures/audit_files_digest", nil)
	if err != nil {
		return err
	}
	scope := b.o.scope(b.insurer)
	b.mask, err = mask.New(b.o.Mask, b.o.Key.Seed(), scope.Insurer, scope.Shop, scope.From, scope.To,
		record.MomentOrNone(b.asked.AsOf), fmt.Sprint(b.asked.WindowDays), digest)
	if err != nil {
		return err
	}
	return b.mask.Learn(b.ctx, b.h)
}

// noJobs tells when the insurer has jobs at all.
func (b *making) noJobs() error {
	all, err := policy.Scope{Insurer: b.insurer}.Set(b.ctx, b.h)
	if err != nil {
		return err
	}
	return &NoJobsError{b.insurer, all.FirstAt, all.LastAt}
}

// write fills the folder.
func (b *making) write(dir string) error {
	b.dir = dir
	if err := os.Mkdir(filepath.Join(dir, "csv"), 0o755); err != nil {
		return err
	}
	steps := []func() error{
		b.openWorkbook, b.writeTables, b.readJournal, b.lookForUnlisted, b.drawSample, b.writeSample,
		b.writeWorkbook, b.writePages, b.writePolicy, b.writeManifest, b.saveKey,
	}
	for _, step := range steps {
		if err := b.ctx.Err(); err != nil {
			return err
		}
		if err := step(); err != nil {
			return fmt.Errorf("audit: %w", err)
		}
	}
	return nil
}

func (b *making) openWorkbook() (err error) {
	b.book, err = newWorkbook(b.o.sheetRows, *b.asked.AsOf)
	if err != nil || b.docs == nil || !b.o.CopyDocuments {
		return err
	}
	return b.docs.CopyInto(b.dir)
}

func (b *making) path(name string) string { return filepath.Join(b.dir, filepath.FromSlash(name)) }

// narrowPolicy takes from the policy what is other insurers', and masks its words like any others. The findings were judged by
// the whole policy: what is taken away asks nothing of this insurer's jobs.
func (b *making) narrowPolicy() error {
	rows, err := history.Select[insurerRow](b.ctx, b.h, "measures/audit_insurers", history.Params{"name": b.insurer})
	if err != nil {
		return err
	}
	var others []string
	for _, row := range rows {
		if !row.Folded {
			others = append(others, row.Shown)
		}
	}
	shown, err := b.o.Policy.For(b.insurer, others)
	shown.Name = b.mask.Name("the policy's name", shown.Name)
	shown.Text = []byte(b.mask.Name("policy.toml", string(shown.Text)))
	b.o.Policy = shown
	return err
}

func (b *making) writePolicy() error { return writeFile(b.path("policy.toml"), b.o.Policy.Text) }

// saveKey is the last step: a key is kept only for a bundle that is made with it.
func (b *making) saveKey() error {
	if b.o.SaveKey == "" {
		return nil
	}
	err := b.o.Key.Save(b.o.SaveKey)
	b.keySaved = err == nil
	return err
}

func (b *making) lookForUnlisted() error {
	if b.docs == nil {
		return nil
	}
	b.found = &b.docs.Report
	return b.docs.Unlisted()
}

// drawSample fixes the root first: it is the seed where the user gave none.
func (b *making) drawSample() (err error) {
	root := proof.MerkleRoot(b.leaves.Hashes())
	b.root = hex.EncodeToString(root[:])
	b.complete = b.tally.Sum()
	if b.o.Sample != nil {
		b.sample, err = b.o.Sample.Draw(b.leaves.Keys, b.root)
	}
	return err
}

// close lets go of what the making held, whether it was finished or not.
func (b *making) close() {
	policy.Forget(context.WithoutCancel(b.ctx), b.h)
	if b.book != nil {
		b.book.file.Close()
	}
	if b.docs != nil {
		b.docs.Close()
	}
}

func (b *making) result() *Result {
	r := &Result{Folder: b.o.Out, Insurer: b.insurer, Completeness: b.complete, Root: b.root, Sample: b.sample,
		Documents: b.found, Rows: b.rows, Notices: append(b.notices, b.mask.Notices()...)}
	if b.o.Key != nil {
		r.Signer = b.o.Key.Fingerprint()
	}
	return r
}
