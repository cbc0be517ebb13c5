package queries

import (
	"fmt"
	"path"
	"strconv"
	"strings"
)

// A Step brings the tables of a history from one version to the next.
type Step struct {
	Version int // that it leads to: 2, 3, 4 …
	Name    string
	SQL     string // one statement or several
}

// Steps gives those of schema/steps in order. Their files are numbered without gaps, for two steps of one number would
// make two kinds of file of one version.
func Steps() []Step {
	var steps []Step
	for i, name := range List("schema/steps") {
		number, _, _ := strings.Cut(path.Base(name), "_")
		version, err := strconv.Atoi(number)
		if err != nil || version != i+2 {
			panic(fmt.Sprintf("%s.sql should be numbered %03d", name, i+2))
		}
		steps = append(steps, Step{version, name, mustSQL(name)})
	}
	return steps
}
