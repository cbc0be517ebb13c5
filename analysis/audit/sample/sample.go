package sample

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"plumbline/analysis/audit/record"
	"plumbline/analysis/stats"
)

// A SampleRequest says how the jobs to inspect are chosen. AQL asks for a plan of the tables, Share for a discovery
// sample; one of the two, or both from one draw.
type Request struct {
	Level    string // inspection level; empty for II
	AQL      string // one of AQLs; empty for no plan
	Severity Severity
	Share    float64 // of bad jobs that a discovery sample shall show, 0 to 1; 0 for none
	Sure     float64 // with which confidence; 0 for 0.95
	Seed     string  // empty: the Merkle root of the bundle, which nobody can choose
}

// ParseSample reads a request such as "level=II,aql=1.0,inspection=normal,discovery=0.02@0.95,seed=spring".
func Parse(text string) (Request, error) {
	request := Request{Level: "II", Severity: Normal}
	for _, part := range strings.Split(text, ",") {
		name, value, _ := strings.Cut(part, "=")
		name, value = strings.ToLower(strings.TrimSpace(name)), strings.TrimSpace(value)
		var err error
		switch name {
		case "level":
			request.Level = strings.ToUpper(value)
		case "aql":
			request.AQL, err = aqlNamed(value)
		case "inspection":
			request.Severity = Severity(strings.ToLower(value))
		case "discovery":
			request.Share, request.Sure, err = discovery(value)
		case "seed":
			request.Seed = value
		default:
			err = fmt.Errorf("sampling: %q is none of level, aql, inspection, discovery, seed", name)
		}
		if err != nil {
			return Request{}, err
		}
	}
	if request.AQL == "" && request.Share == 0 {
		return Request{}, fmt.Errorf("sampling: name an AQL, as in aql=1.0, " +
			"or a share to discover, as in discovery=0.02@0.95")
	}
	return request, request.Check()
}

// plainSeed keeps a seed safe to print and to paste into a command.
var plainSeed = regexp.MustCompile(`^[A-Za-z0-9 ._:-]{0,200}$`)

// Check tries the words against a lot of any size, so that a slip shows before the bundle is made.
func (r Request) Check() error {
	if r.AQL != "" {
		if _, err := FindPlan(1000, r.AtLevel(), r.AQL, r.Inspection()); err != nil {
			return err
		}
	}
	if !plainSeed.MatchString(r.Seed) {
		return fmt.Errorf("sampling: a seed is up to 200 letters, digits, spaces and . _ - : so that anyone can type it")
	}
	if r.Share < 0 || r.Share > 1 || r.Sure < 0 || r.Sure >= 1 {
		return fmt.Errorf("sampling: a share lies between 0 and 1, and a confidence below 1")
	}
	return nil
}

func (r Request) AtLevel() string {
	if r.Level == "" {
		return "II"
	}
	return r.Level
}

func (r Request) Inspection() Severity {
	if r.Severity == "" {
		return Normal
	}
	return r.Severity
}

// aqlNamed gives an AQL as the tables write it: 1 is 1.0.
func aqlNamed(text string) (string, error) {
	wanted, err := strconv.ParseFloat(text, 64)
	for _, aql := range AQLs {
		if number, _ := strconv.ParseFloat(aql, 64); err == nil && number == wanted {
			return aql, nil
		}
	}
	return "", fmt.Errorf("sampling: AQL %q is none of %s", text, strings.Join(AQLs, ", "))
}

func discovery(text string) (share, sure float64, err error) {
	first, second, given := strings.Cut(text, "@")
	if !given {
		second = "0.95"
	}
	share, err = strconv.ParseFloat(first, 64)
	if err == nil {
		sure, err = strconv.ParseFloat(second, 64)
	}
	if err != nil || !(share > 0 && share <= 1) || !(sure > 0 && sure < 1) {
		return 0, 0, fmt.Errorf("sampling: discovery %q is not a share and a confidence, as in 0.02@0.95", text)
	}
	return share, sure, nil
}

// A Sample is the drawn jobs, with the plan that says how many and what they decide.
type Sample struct {
	Request   Request
	Seed      string
	Lot       int64
	Plan      *Plan // nil where no AQL was asked for
	Discovery *Discovery
	Jobs      []Drawn // in the order of the draw
}

// A DiscoverySample is one that is sure enough to hold a bad job if the share of bad ones is as large as asked.
type Discovery struct {
	Share, Sure float64
	Bad         int64 // bad jobs in the lot that make up the share, rounded up
	Size        int64
}

// A DrawnJob is a job of the sample. Digest is what it was drawn by.
type Drawn struct {
	Place  int64
	Job    record.Job
	Digest string
	InPlan bool // belongs to the plan's sample
	InDisc bool // belongs to the discovery sample
}

// Draw chooses jobs: each is given the SHA-256 of the seed, a vertical bar, its shop, a slash and its number, and they
// are taken in the order of these, the smallest first. Anyone can repeat it with sha256sum.
func (r Request) Draw(jobs []record.Job, root string) (*Sample, error) {
	s := &Sample{Request: r, Seed: r.Seed, Lot: int64(len(jobs))}
	if s.Seed == "" {
		s.Seed = root
	}
	var size, discover int64
	if r.AQL != "" {
		plan, err := FindPlan(s.Lot, r.AtLevel(), r.AQL, r.Inspection())
		if err != nil {
			return nil, err
		}
		s.Plan, size = &plan, plan.Size
	}
	if r.Share > 0 {
		found, err := discoverySample(s.Lot, r.Share, r.Sure)
		if err != nil {
			return nil, err
		}
		s.Discovery, discover = &found, found.Size
	}
	for _, job := range jobs {
		digest := sha256.Sum256([]byte(s.Seed + "|" + job.String()))
		s.Jobs = append(s.Jobs, Drawn{Job: job, Digest: hex.EncodeToString(digest[:])})
	}
	slices.SortFunc(s.Jobs, func(a, b Drawn) int { return strings.Compare(a.Digest, b.Digest) })
	s.Jobs = s.Jobs[:max(size, discover)]
	for i := range s.Jobs {
		place := int64(i)
		s.Jobs[i].Place, s.Jobs[i].InPlan, s.Jobs[i].InDisc = place+1, place < size, place < discover
	}
	return s, nil
}

func discoverySample(lot int64, share, sure float64) (Discovery, error) {
	if sure == 0 {
		sure = stats.Level95
	}
	bad := int64(math.Ceil(share*float64(lot) - 1e-9)) // 2 % of 50 is 1, whatever the last digit of the product
	size, err := stats.DiscoverySampleSize(lot, max(1, bad), sure)
	return Discovery{share, sure, max(1, bad), size}, err
}

// DrawnFor says which of the two samples the job belongs to.
func (j Drawn) DrawnFor() string {
	var list []string
	if j.InPlan {
		list = append(list, "plan")
	}
	if j.InDisc {
		list = append(list, "discovery")
	}
	return strings.Join(list, ", ")
}
