package main

import (
	"github.com/spf13/cobra"

	"plumbline/analysis/history"
	"plumbline/analysis/quality"
)

// summaryRow is one shop or insurer as it is printed: of each measure its share, units, interval and call.
type summaryRow struct {
	Group                               string
	Jobs                                int64
	NotFirstPass                        *float64
	NotFirstPassN                       *int64
	NotFirstPassLow, NotFirstPassHigh   *float64
	NotFirstPassCall                    string
	Comeback                            *float64
	ComebackN                           *int64
	ComebackLow, ComebackHigh           *float64
	ComebackCall                        string
	PostScanFault                       *float64
	PostScanFaultN                      *int64
	PostScanFaultLow, PostScanFaultHigh *float64
	PostScanFaultCall                   string
	Gap                                 *float64
	GapN                                *int64
	GapLow, GapHigh                     *float64
	GapCall                             string
	Rework                              *float64
	ReworkN                             *int64
	ReworkLow, ReworkHigh               *float64
	ReworkHours                         float64
	WithoutEnd                          int64
}

func newSummary(a *app) *cobra.Command {
	var (
		view   viewFlags
		by     = newOneOf(quality.SummaryGroupings, "shop")
		format formatFlag
	)
	cmd := &cobra.Command{
		Use:   "summary",
		Short: "Shops or insurers, one row each",
		Long: "Put shops, or the insurers whose jobs they are, one below the other: jobs opened, the share of tasks that are not\n" +
			"first pass, of matured jobs that came back, of jobs that left with a fault, of closed jobs with a gap in their record\n" +
			"(with --policy also of documents), and of attempts that are work done again, each with its units and interval. A\n" +
			"call says higher or lower where a group differs from the others like with like; gaps are compared as they are.",
		Example: "  plumbline summary --from 2025\n  plumbline summary --by insurer --format csv",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return a.read(cmd.Context(), &view, func(h *history.History, filter quality.Filter) error {
				summaries, err := quality.Summaries(cmd.Context(), h, by.word, filter)
				if err != nil {
					return err
				}
				rows := make([]summaryRow, len(summaries))
				for i, s := range summaries {
					rows[i] = summaryRowOf(s)
				}
				return format.print(a, gridOf(rows))
			})
		},
	}
	view.add(cmd)
	view.addPolicy(cmd)
	addOneOf(cmd, by, "by", "what a row is")
	format = addFormat(cmd)
	return cmd
}

func summaryRowOf(s quality.GroupSummary) summaryRow {
	r := summaryRow{Group: s.Group, Jobs: s.Jobs, ReworkHours: s.AgainHours, WithoutEnd: s.WithoutEnd}
	var unasked string
	for _, m := range []struct {
		from      *quality.Measure
		rate      **float64
		n         **int64
		low, high **float64
		call      *string
	}{
		{s.NotFirstPass, &r.NotFirstPass, &r.NotFirstPassN, &r.NotFirstPassLow, &r.NotFirstPassHigh, &r.NotFirstPassCall},
		{s.Comeback, &r.Comeback, &r.ComebackN, &r.ComebackLow, &r.ComebackHigh, &r.ComebackCall},
		{s.PostScanFault, &r.PostScanFault, &r.PostScanFaultN, &r.PostScanFaultLow, &r.PostScanFaultHigh, &r.PostScanFaultCall},
		{s.Gap, &r.Gap, &r.GapN, &r.GapLow, &r.GapHigh, &r.GapCall},
		{s.Again, &r.Rework, &r.ReworkN, &r.ReworkLow, &r.ReworkHigh, &unasked},
	} {
		if m.from != nil {
			rate, n, low, high := m.from.Rate(), m.from.N, m.from.Low, m.from.High
			*m.rate, *m.n, *m.low, *m.high, *m.call = &rate, &n, &low, &high, string(m.from.Call)
		}
	}
	return r
}
