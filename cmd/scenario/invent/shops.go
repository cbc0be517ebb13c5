package invent

import (
	"fmt"
	"time"
)

// shop is one shop of the group with its own people, stands and numbering.
type shop struct {
	calendar
	habits
	name    string
	weight  int // share of the group's jobs
	number  func(s *shop, opened time.Time) string
	counter int
	people  []*technician
	bays    []*bay
	stands  []*tool
	boards  []*tool // camera boards, one to a maker
	mirrors []*tool // corner reflectors for radar
	gauges  []*tool // levels and tire gauges: checked like the rest, named in no attempt
	due     []*errand

	lastUncalibrated string // number of its last job without calibration
}

type bay struct {
	name string
	diary
}

// habits is what a shop does its own way.
type habits struct {
	skipsPreScan, skipsPostScan float64
	skipsCamera, skipsRoadTest  float64
	hashes                      bool      // its document store keeps SHA-256 sums
	compactCodes                bool      // its scan tool writes codes without hyphen
	closesByDate                time.Time // until then the office wrote only the day a job was closed
	pressureUnit                string
	updatesAfter                time.Duration // how long after release it updates its software
}

// roster is what tells the shops of a group apart.
type roster struct {
	name, mark           string // mark begins the names of its equipment
	weight               int
	people               int
	bays, stands, boards int
	saturdays            bool
	habits               habits
	number               func(s *shop, opened time.Time) string
}

// rosters are the three shops of a group. The third leaves out post-scans far
// too often, keeps no sums of its documents and is careless in small things.
var rosters = []roster{
	{name: "Kestrel", mark: "K", weight: 44, people: 5, bays: 4, stands: 3, boards: 5, saturdays: true,
		habits: habits{skipsPreScan: 0.006, skipsPostScan: 0.010, skipsCamera: 0.008, skipsRoadTest: 0.006, hashes: true, pressureUnit: "kPa"},
		number: func(s *shop, _ time.Time) string { return fmt.Sprintf("KR-%05d", 20416+s.counter) }},
	{name: "Tannery", mark: "T", weight: 33, people: 4, bays: 3, stands: 2, boards: 5,
		habits: habits{skipsPreScan: 0.010, skipsPostScan: 0.016, skipsCamera: 0.020, skipsRoadTest: 0.008, hashes: true, pressureUnit: "psi", updatesAfter: days(38)},
		number: func(s *shop, opened time.Time) string { return fmt.Sprintf("T%02d-%04d", opened.Year()%100, s.counter) }},
	{name: "Ferry", mark: "F", weight: 23, people: 3, bays: 2, stands: 2, boards: 5,
		habits: habits{skipsPreScan: 0.018, skipsPostScan: 0.29, skipsCamera: 0.016, skipsRoadTest: 0.012, compactCodes: true, pressureUnit: "bar",
			closesByDate: day(2025, time.January, 31), updatesAfter: days(75)},
		number: func(s *shop, _ time.Time) string { return fmt.Sprintf("%d", 118203+s.counter) }},
}

// newShop opens a shop. Later groups carry their number in the shop's name;
// firstTech is the number of its first technician.
func (g *group) newShop(r roster, firstTech int) *shop {
	name := r.name
	if g.index > 0 {
		name = fmt.Sprintf("%s-%02d", r.name, g.index+1)
	}
	s := &shop{calendar: calendar{r.saturdays}, habits: r.habits, name: name, weight: r.weight, number: r.number}
	for i := range r.people {
		s.people = append(s.people, &technician{code: fmt.Sprintf("T%02d", firstTech+i), skill: g.uniform(0.85, 1.15)})
	}
	for i := range r.bays {
		s.bays = append(s.bays, &bay{name: fmt.Sprintf("bay %d", i+1)})
	}
	s.stands = tools(r.mark+"-ST", r.stands)
	s.boards = tools(r.mark+"-TB", r.boards)
	s.mirrors = tools(r.mark+"-CR", 2)
	s.gauges = append(tools(r.mark+"-LV", 1), tools(r.mark+"-PG", 1)...)
	return s
}

// nextNumber numbers the job opened now.
func (s *shop) nextNumber(opened time.Time) string {
	s.counter++
	return s.number(s, opened)
}

// quiet forgets bookings that lie in the past.
func (s *shop) quiet(now time.Time) {
	for _, p := range s.people {
		p.diary.forget(now)
	}
	for _, b := range s.bays {
		b.forget(now)
	}
	for _, t := range s.stands {
		t.diary.forget(now)
	}
}
