package quality

import (
	"cmp"
	"slices"
	"time"

	"plumbline/analysis/stats"
)

// jobsOfDay are the jobs of one day in a group that have as many tasks, N, and hits, Count.
type jobsOfDay struct {
	GroupName string
	Day       time.Time
	N, Count  int64
	Jobs      int64
}

// sequence is a group's jobs in order of time, with their days.
type sequence struct {
	group string
	jobs  []stats.Proportion
	days  []time.Time // of each job
	all   stats.Proportion
}

// sequencesOf takes the rows of each group, which come in one piece and in order of time, apart into jobs.
func sequencesOf(rows []jobsOfDay) []sequence {
	var sequences []sequence
	for _, row := range rows {
		if last := len(sequences) - 1; last < 0 || sequences[last].group != row.GroupName {
			sequences = append(sequences, sequence{group: row.GroupName})
		}
		s, job := &sequences[len(sequences)-1], stats.Proportion{Count: row.Count, N: row.N}
		for range row.Jobs {
			s.jobs, s.days = append(s.jobs, job), append(s.days, row.Day)
		}
		s.all.Count, s.all.N = s.all.Count+row.Jobs*row.Count, s.all.N+row.Jobs*row.N
	}
	return sequences
}

// change finds the most likely change among the jobs from first up to last. Cuts lie between days only.
func (s sequence) change(first, last, draws int) (stats.Change, error) {
	part := stats.Sequence{Clusters: s.jobs[first:last], Least: minGroup}
	for i := first + 1; i < last; i++ {
		if !s.days[i].Equal(s.days[i-1]) {
			part.Cuts = append(part.Cuts, i-first)
		}
	}
	change, err := stats.ChangePoint(part, draws, onsetSeed)
	change.At += first
	return change, err
}

// search is the search for changes in one sequence.
type search struct {
	sequence sequence
	first    stats.Change
	q        float64        // of the first point
	told     []stats.Change // in order of time; the first point alone where it is not told
}

func (s *search) findFirst(draws int) (err error) {
	s.first, err = s.sequence.change(0, len(s.sequence.jobs), draws)
	return err
}

// findWithin looks once into each of the two parts, where the first point is told.
func (s *search) findWithin(draws int) error {
	if !s.first.Defined {
		return nil
	}
	s.told = []stats.Change{s.first}
	if s.q >= 0.05 {
		return nil
	}
	for _, part := range [][2]int{{0, s.first.At}, {s.first.At, len(s.sequence.jobs)}} {
		change, err := s.sequence.change(part[0], part[1], draws)
		if err != nil {
			return err
		}
		if change.Defined && change.P < toldWithin {
			s.told = append(s.told, change)
		}
	}
	slices.SortFunc(s.told, func(a, b stats.Change) int { return cmp.Compare(a.At, b.At) })
	return nil
}

// rows are the changes with the stretches on their sides.
func (s *search) rows() ([]Onset, error) {
	ends := []int{0}
	for _, change := range s.told {
		ends = append(ends, change.At)
	}
	ends = append(ends, len(s.sequence.jobs))
	stretch := func(i int) (all stats.Proportion) {
		for _, job := range s.sequence.jobs[ends[i]:ends[i+1]] {
			all = sum(all, job)
		}
		return all
	}
	rows := make([]Onset, len(s.told))
	for i, change := range s.told {
		row := Onset{Group: s.sequence.group, N: s.sequence.all.N, Count: s.sequence.all.Count, Change: i + 1,
			LastBefore: s.sequence.days[change.At-1], FirstAfter: s.sequence.days[change.At],
			P: change.P, Q: s.q, First: stretch(0), FirstP: s.first.P, Draws: change.Draws, Seed: change.Seed}
		if i+1 < len(s.told) {
			row.Until = &s.sequence.days[s.told[i+1].At]
		}
		if err := row.compare(stretch(i), stretch(i+1)); err != nil {
			return nil, err
		}
		rows[i] = row
	}
	return rows, nil
}

// compare sets the stretches on both sides of the change side by side.
func (o *Onset) compare(before, after stats.Proportion) error {
	low, err := stats.Wilson(before, stats.Level95)
	if err != nil {
		return err
	}
	high, err := stats.Wilson(after, stats.Level95)
	if err != nil {
		return err
	}
	difference, err := stats.NewcombeDifference(after, before, stats.Level95)
	o.BeforeN, o.BeforeCount, o.BeforeRate, o.BeforeLow, o.BeforeHigh = before.N, before.Count, before.Rate(), low.Low, low.High
	o.AfterN, o.AfterCount, o.AfterRate, o.AfterLow, o.AfterHigh = after.N, after.Count, after.Rate(), high.Low, high.High
	o.Difference, o.DiffLow, o.DiffHigh = difference.Value, difference.Interval.Low, difference.Interval.High
	return err
}
