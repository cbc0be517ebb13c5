package document

import (
	"io/fs"
	"path"
	"regexp"
	"runtime"
	"strings"

	"plumbline/analysis/audit/record"
)

// places are where a document of a job may lie under the folder, the most particular first. A name that leads anywhere else
// has none: not upwards, not from the top, and not to another drive or stream of Windows.
func places(job record.Job, fileName string) []string {
	name := slashed(fileName)
	if leads(name) || path.Clean(name) == "." {
		return nil
	}
	var list []string
	for _, under := range []string{job.Shop + "/" + job.JobNo, job.JobNo, job.Shop, "."} {
		if place := path.Join(under, name); !leads(slashed(under)) && fs.ValidPath(place) {
			list = append(list, place)
		}
	}
	return list
}

// slashed writes a name with the one separator that all systems know.
func slashed(name string) string { return strings.ReplaceAll(name, `\`, "/") }

// leads says that a name leads out of the folder in which it is looked up.
func leads(name string) bool {
	for part := range strings.SplitSeq(name, "/") {
		if part == ".." {
			return true
		}
	}
	isStream := runtime.GOOS == "windows" && strings.Contains(name, ":")
	return strings.HasPrefix(name, "/") || onDrive.MatchString(name) || isStream
}

// onDrive is a name of Windows that begins with a drive.
var onDrive = regexp.MustCompile(`^[A-Za-z]:`)

// claims says which job lists a place, whatever the case of its letters: many file systems tell no capitals.
type claims map[string]claim

type claim struct {
	job    record.Job
	byMany bool
}

func (c claims) add(job record.Job, place string) {
	key := strings.ToLower(place)
	was, known := c[key]
	c[key] = claim{job, known && (was.byMany || was.job != job)}
}

// areOthers says that another job lists the place too, so that the name alone does not tell whose file lies there.
func (c claims) areOthers(place string) bool { return c[strings.ToLower(place)].byMany }

func (c claims) isListed(place string) bool {
	_, known := c[strings.ToLower(place)]
	return known
}
