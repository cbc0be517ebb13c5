package history

import (
	"context"
	"testing"
)

func TestEmptyHistoryOpens(t *testing.T) {
	ctx := context.Background()
	h, err := InMemory(ctx)
	if err != nil {
		t.Fatal(err)
	}
	defer h.Close()
	if err := h.LookBack(ctx, Asked{}); err != nil {
		t.Fatal(err)
	}
}
