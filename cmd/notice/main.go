// Command notice writes the licences of everything that is built into plumbline: of the modules that its packages come
// from, as the module cache holds their texts, and of what is kept in this repository or linked in by a module. It is run
// in the repository's folder.
//
//	go run ./cmd/notice > NOTICE
package main

import (
	"fmt"
	"os"
)

func main() {
	text, err := notice(".")
	if err != nil {
		fmt.Fprintln(os.Stderr, "notice:", err)
		os.Exit(1)
	}
	fmt.Print(text)
}
