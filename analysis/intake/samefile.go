package intake

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"

	"plumbline/analysis/history"
	"plumbline/queries"
)

// takeKnown says whether the very same file came in before, by the same rules, with all that it said still on record. Then
// it need not be read again: that is most of what a folder of exports holds the second time.
func (im *importing) takeKnown(p *part, rules string) (tally, bool, error) {
	if _, foreign := p.source.(foreignRows); foreign {
		return tally{}, false, nil
	}
	type file struct {
		FromFile, Import int
		Read, Rejected   int64
	}
	found, err := answers[file](im, ofKind(p.kind, false), "same_file", history.Params{"sha256": p.SHA256, "sheet": orNull(p.Sheet), "rules": rules})
	if err != nil || len(found) == 0 {
		return tally{}, false, err
	}
	earlier := found[0]
	err = im.noteBrought(p, earlier.FromFile)
	if err == nil && earlier.Rejected > 0 {
		err = im.h.Exec(im.ctx, "intake/repeat_rejects", history.Params{"from_file": im.fromFile, "earlier": earlier.FromFile})
	}
	return tally{Read: earlier.Read, Unchanged: earlier.Read - earlier.Rejected, Rejected: earlier.Rejected}, true, err
}

// rulesOf is a digest of the rules by which the part is read: of what readings mean, of the kind and of the options.
func (im *importing) rulesOf(p *part) (string, error) {
	sum := sha256.New()
	for _, name := range append(queries.List("intake/kind"), "intake/readings", "intake/foreign_readings") {
		text, err := queries.SQL(name)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(sum, "%s\x00%s\x00", name, text)
	}
	fmt.Fprintf(sum, "%+v\x00%s\x00", *p.kind, im.o.Zone)
	if im.o.Profile != "" {
		text, err := os.ReadFile(im.o.Profile)
		if err != nil {
			return "", err
		}
		sum.Write(text)
	}
	return hex.EncodeToString(sum.Sum(nil)), nil
}
