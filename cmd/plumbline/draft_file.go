package main

import (
	"crypto/sha256"
	"fmt"
	"os"
	"strings"
)

// seal begins the last line of a draft: the digest of all above it tells whether a person has changed anything since.
const seal = "# as drafted: "

// mayBeWritten lets a draft be written where nothing is, or an earlier draft that nobody has changed, for questions are
// answered in rounds; a file that somebody has worked on stays. No path is none to write to.
func mayBeWritten(path string) error {
	if held, err := os.ReadFile(path); path != "" && err == nil && !isAsDrafted(string(held)) {
		return fmt.Errorf("%s is there already, and not as it was drafted: name another file with --out", path)
	}
	return nil
}

func writeDraft(path, text string) error {
	return os.WriteFile(path, []byte(sealed(text)), 0o644)
}

func sealed(text string) string {
	text = strings.TrimRight(text, "\n") + "\n"
	return fmt.Sprintf("%s\n%s%x\n", text, seal, sha256.Sum256([]byte(text)))
}

func isAsDrafted(held string) bool {
	text, _, found := strings.Cut(held, "\n"+seal)
	return found && held == sealed(text)
}
