package main

import (
	"fmt"
	"io"

	"plumbline/analysis/stats"
)

// A tally counts fates.
type tally struct{ noticed, survived, unbuilt int64 }

func (t *tally) count(f fate) {
	switch f.word {
	case survived.word:
		t.survived++
	case unbuilt.word:
		t.unbuilt++
	default:
		t.noticed++
	}
}

// tell gives the share noticed of what could be built, with its interval: a sample is a sample.
func (t tally) tell(out io.Writer) error {
	share := stats.Proportion{Count: t.noticed, N: t.noticed + t.survived}
	if share.N == 0 {
		_, err := fmt.Fprintf(out, "nothing could be built of %d\n", t.unbuilt)
		return err
	}
	interval, err := stats.Wilson(share, stats.Level95)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(out, "%d of %d noticed, %.0f %% (95 %% interval %.0f to %.0f), %d more could not be built\n",
		share.Count, share.N, 100*share.Rate(), 100*interval.Low, 100*interval.High, t.unbuilt)
	return err
}
