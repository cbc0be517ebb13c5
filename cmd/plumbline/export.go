package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"plumbline/analysis/history"
)

func newExport(a *app) *cobra.Command {
	var out string
	cmd := &cobra.Command{
		Use:   "export --out DIR",
		Short: "Write the whole history as Parquet",
		Long: "Write every table of the history, superseded and rejected rows, journal and decisions included, as one Parquet\n" +
			"file each into a new or empty folder. The ten kinds of record import again as they are.",
		Example: "  plumbline export --out backup\n  plumbline export --history north.duckdb --out north-parquet",
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if out == "" {
				return usagef("export needs --out DIR")
			}
			h, err := history.OpenExporter(cmd.Context(), a.historyPath)
			if err != nil {
				return err
			}
			defer h.Close()
			tables, err := h.Export(cmd.Context(), out)
			if err != nil {
				return err
			}
			_, err = fmt.Fprintf(a.err, "%s written to %s\n", counted(tables, "table"), out)
			return err
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "the `folder` to write to, new or empty")
	return cmd
}
