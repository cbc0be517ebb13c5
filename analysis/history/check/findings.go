package check

import (
	"context"
	"fmt"

	"plumbline/analysis/history"
)

// findings asks for the findings twice: by the file's own views, as any other client would, and by today's.
func findings(ctx context.Context, h *history.History, path string) ([]Line, error) {
	if err := h.LookBack(ctx, history.Asked{}); err != nil {
		return nil, err
	}
	client, err := history.OpenClient(ctx, path)
	if err != nil {
		return []Line{{"findings", "the file's views", err.Error(), mendDefinitions}}, nil
	}
	defer client.Close()
	theirs, err := sumOf(ctx, client)
	if err != nil {
		return nil, err
	}
	ours, err := sumOf(ctx, h)
	switch {
	case err != nil:
		return nil, err
	case ours != theirs:
		return []Line{{"findings", "the file's views", fmt.Sprintf("give %s where today's rules give %s",
			theirs, ours), mendDefinitions}}, nil
	}
	return []Line{{"findings", fmt.Sprintf("%s, asked twice", counted(ours.Findings, "finding")), Whole, ""}}, nil
}

// a sum stands for all findings, whatever their order.
type sum struct {
	Findings int64
	Decided  int64
	Digest   string
}

func (s sum) String() string {
	return fmt.Sprintf("%s (%d decided, sum %s)", counted(s.Findings, "finding"), s.Decided, s.Digest)
}

func sumOf(ctx context.Context, h *history.History) (sum, error) {
	sums, err := history.Select[sum](ctx, h, "check/findings", nil)
	if err != nil {
		return sum{}, err
	}
	return sums[0], nil
}
