package intake

import (
	"database/sql"
	"path/filepath"
	"testing"
	"time"

	"plumbline/analysis/history"
)

// TestAnotherClientReadsTheViews opens the file as any other client of the database would, without plumbline between:
// the views go by the latest event, which each import and each undoing has noted, and by a temporary table in its place.
func TestAnotherClientReadsTheViews(t *testing.T) {
	path := filepath.Join(t.TempDir(), "history.duckdb")
	h, err := history.OpenWriter(t.Context(), path)
	check(t, err)
	imported(t, h, Options{Files: []string{small}})
	check(t, h.LookBack(t.Context(), history.Asked{}))
	shapes := []string{"tasks", "visits", "comebacks", "post_scan_faults", "readings", "task_groups", "findings"}
	want := map[string]int64{}
	for _, shape := range shapes {
		want[shape], err = countOf(t, h, shape)
		check(t, err)
	}
	check(t, h.Close())

	client, err := sql.Open("duckdb", path)
	check(t, err)
	client.SetMaxOpenConns(1)
	counted := func(shape string) (rows int64) {
		t.Helper()
		check(t, client.QueryRow("select count(*) from "+shape).Scan(&rows))
		return rows
	}
	for _, shape := range shapes {
		if got := counted(shape); got != want[shape] || got == 0 {
			t.Errorf("%s: another client counts %d rows, plumbline %d", shape, got, want[shape])
		}
	}
	_, err = client.Exec("create temporary table asked as select timestamp '1990-01-01' as as_of, 90 as window_days")
	check(t, err)
	if got := counted("tasks"); got != 0 {
		t.Errorf("as of 1990 another client counts %d tasks", got)
	}
	check(t, client.Close())

	h, err = history.OpenWriter(t.Context(), path)
	check(t, err)
	_, err = Undo(t.Context(), h, 1, time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC))
	check(t, err)
	check(t, h.Close())
	client, err = sql.Open("duckdb", path)
	check(t, err)
	defer client.Close()
	var noted *time.Time
	check(t, client.QueryRow("select as_of from asked").Scan(&noted))
	if noted != nil {
		t.Errorf("after the only import was undone the file still notes %s", noted)
	}
}

// check ends the test where what it is about could not even be tried.
func check(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func countOf(t *testing.T, h *history.History, shape string) (int64, error) {
	counts, err := history.SelectStatement[int64](t.Context(), h,
		history.Statement{Name: shape, SQL: "select count(*) from " + shape}, nil)
	if err != nil {
		return 0, err
	}
	return counts[0], nil
}
