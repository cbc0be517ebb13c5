package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"plumbline/analysis/folder"
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
			if err := folder.Free(out); err != nil {
				return err
			}
			h, err := history.OpenExporter(cmd.Context(), a.historyPath)
			if err != nil {
				return err
			}
			defer h.Close()
			if err := os.MkdirAll(filepath.Dir(out), 0o755); err != nil {
				return err
			}
			watch := a.newProgress("writing")
			var done history.Exported
			err = folder.Write(out, func(dir string) (err error) {
				done, err = h.Export(cmd.Context(), dir, watch.show)
				return err
			})
			watch.clear()
			if err != nil {
				return err
			}
			_, err = fmt.Fprintf(a.err, "%s and all that belongs to them, in %s, written to %s and read back\n",
				counted(done.Records, "record"), counted(done.Tables, "table"), out)
			return err
		},
	}
	cmd.Flags().StringVar(&out, "out", "", "the `folder` to write to, new or empty")
	return cmd
}
