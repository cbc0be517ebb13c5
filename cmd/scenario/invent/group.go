package invent

import (
	"fmt"
	"time"

	"plumbline/cmd/scenario/record"
)

// Plan says how much to invent. The same plan gives the same records.
type Plan struct {
	Seed uint64
	Jobs int
}

// Sink takes the records, a visit at a time, the jobs of a group in the order
// in which they were opened.
type Sink interface {
	Visit(*record.Visit)
	Check(record.EquipmentCheck)
	Action(record.Action)
}

// groupSize is about how many jobs a group of three shops does in two years.
const groupSize = 4000

// group is three shops that share an owner and meet each other's vehicles.
type group struct {
	dice
	index       int
	from, until time.Time
	shops       []*shop
	park        []*vehicle // every vehicle seen so far
	serial      int        // of the last vehicle made
	claims      int        // last claim number given out
}

// Write invents the history and hands it to the sink. Memory stays at what
// one group needs.
func Write(p Plan, to Sink) error {
	if p.Jobs < 1 {
		return fmt.Errorf("number of jobs %d: want at least 1", p.Jobs)
	}
	groups := max(1, (p.Jobs+groupSize/2)/groupSize)
	for i := range groups {
		g := newGroup(p.Seed, i, From, Until)
		g.open(rosters, 1+12*i)
		g.run(p.Jobs*(i+1)/groups-p.Jobs*i/groups, to)
	}
	return nil
}

// newGroup leaves room for as many vehicles as a group can meet, so that no
// vehicle identification number occurs twice.
func newGroup(seed uint64, index int, from, until time.Time) *group {
	return &group{dice: newDice(seed, uint64(index)), index: index, from: from, until: until,
		serial: index * (groupSize + groupSize/2), claims: 10_000 + 300_000*index%900_000}
}

// open sets up the shops of the group; first is the number of its first
// technician.
func (g *group) open(from []roster, first int) {
	for _, r := range from {
		g.shops = append(g.shops, g.newShop(r, first))
		first += r.people
	}
	g.buyBoard()
	g.spellTwice()
}

// spellTwice gives one technician of each group's second shop a login that
// somebody typed in small letters.
func (g *group) spellTwice() {
	if len(g.shops) > 1 {
		who := g.shops[1].people[1]
		who.alias = "t" + who.code[1:]
	}
}

// run lets n vehicles drive in, one after the other.
func (g *group) run(n int, to Sink) {
	for _, check := range g.register() {
		to.Check(check)
	}
	g.act(to)
	for _, slot := range g.slots(n) {
		s := g.shops[slot.shop]
		s.quiet(slot.at)
		why := s.expected(slot.at)
		if why == nil {
			why = g.walkIn(s, slot.at)
		}
		visit := g.serve(s, slot.at, why)
		g.comeBack(visit)
		if g.index != newcomer {
			visit.slip()
		}
		visit.cutAt(g.until)
		to.Visit(visit.v)
	}
}
