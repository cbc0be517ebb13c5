package main

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
	"plumbline/analysis/review"
)

// traceRow is one event of a story as it is printed in csv and json.
type traceRow struct {
	At      time.Time
	Until   *time.Time
	Shop    string
	JobNo   string
	Kind    string
	Tone    string
	Text    string
	Details []string
}

func newTrace(a *app) *cobra.Command {
	var (
		view   viewFlags
		out    string
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "trace VIN|SHOP/JOB|KIND=NAME",
		Short: "Everything on one vehicle or job, in time order; or on a stand, board, bay or person",
		Long: "Tell a vehicle's story over all shops: visits, glass, scans with their faults, attempts with measured values\n" +
			"against tolerance, road tests, documents, findings and decisions. The last six or more characters of a VIN do\n" +
			"where they are unique. --out writes it as a page with a timeline.\n\n" +
			"equipment=SHOP/NAME tells of a stand, target= of a board, bay= and technician= of those: month by month, its\n" +
			"checks, what was done about it, software, measured values against tolerance, and what failed there and then worked.",
		Example: "  plumbline trace 919514\n  plumbline trace north/J-1042\n  plumbline trace north/J-1042 --out story\n" +
			"  plumbline trace \"equipment=north/stand 1\" --from 2025",
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				if kind, name, isSubject := subjectOf(args[0]); isSubject {
					story, err := quality.TraceSubject(cmd.Context(), h, kind, name, filter)
					if err != nil {
						return err
					}
					return a.tellSubject(story, format)
				}
				story, err := quality.Trace(cmd.Context(), h, args[0])
				if err != nil {
					return err
				}
				if out != "" {
					return a.writeStory(cmd.Context(), h, story, out)
				}
				if format.word != "table" {
					return format.print(a, gridOf(traceRows(story)))
				}
				return tellStory(a, story)
			})
		},
	}
	view.addDates(cmd)
	view.addAsked(cmd)
	cmd.Flags().StringVar(&out, "out", "", "write a page with a timeline into this `folder`")
	format = addFormat(cmd)
	return cmd
}

// writeStory writes the page of a vehicle's story.
func (a *app) writeStory(ctx context.Context, h *history.History, story quality.Story, out string) error {
	if err := review.WriteStory(ctx, h, story, version, out); err != nil {
		return err
	}
	_, err := fmt.Fprintf(a.err, "story written: open %s\n", filepath.Join(out, "index.html"))
	return err
}

func traceRows(story quality.Story) []traceRow {
	rows := make([]traceRow, len(story.Events))
	for i, e := range story.Events {
		rows[i] = traceRow{e.At, e.Until, e.Shop, e.JobNo, string(e.Kind), string(e.Tone), e.Text, e.Details}
	}
	return rows
}

// tellStory prints the events under a heading a visit, details indented below what they belong to.
func tellStory(a *app, story quality.Story) error {
	var text strings.Builder
	fmt.Fprintln(&text, storyTitle(story))
	visit := ""
	for _, e := range story.Events {
		if name := e.Shop + "/" + e.JobNo; name != visit {
			visit = name
			fmt.Fprintf(&text, "\n%s\n", visit)
		}
		fmt.Fprintf(&text, "  %-16s  %s\n", eventTime(e), e.Text)
		for _, detail := range e.Details {
			fmt.Fprintf(&text, "  %-16s    %s\n", "", detail)
		}
	}
	fmt.Fprintf(&text, "\nvisits: %d, findings: %d\n", len(story.Visits), len(story.Findings))
	_, err := fmt.Fprint(a.out, text.String())
	return err
}

func storyTitle(story quality.Story) string {
	title := story.VIN
	if title == "" {
		title = story.Asked + ", VIN not on record"
	}
	for _, part := range []*string{story.Make, story.Model} {
		if part != nil {
			title += " " + *part
		}
	}
	if story.ModelYear != nil {
		title += fmt.Sprintf(" %d", *story.ModelYear)
	}
	return title
}

// eventTime leaves out what the record does not give.
func eventTime(e quality.StoryEvent) string {
	switch {
	case !e.Dated:
		return "no time given"
	case e.DateOnly:
		return e.At.Format("2006-01-02")
	}
	return e.At.Format("2006-01-02 15:04")
}
