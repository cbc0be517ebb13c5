package invent

import "time"

// diary is when a bay, a stand or a person is taken. Real work does not
// overlap, so clean records must not either.
type diary struct{ taken []interval }

type interval struct{ start, end time.Time }

// clash returns the end of a taken interval that shares a moment with the
// one asked for.
func (d *diary) clash(start, end time.Time) (time.Time, bool) {
	for _, t := range d.taken {
		if start.Before(t.end) && t.start.Before(end) {
			return t.end, true
		}
	}
	return time.Time{}, false
}

// forget drops what ended before t; nothing is booked in the past.
func (d *diary) forget(t time.Time) {
	kept := d.taken[:0]
	for _, i := range d.taken {
		if i.end.After(t) {
			kept = append(kept, i)
		}
	}
	d.taken = kept
}

// book takes all the diaries for the first stretch of need at or after
// earliest that is free in each of them and within the shop's hours. Who had
// to wait needs another while, settle, until the work begins.
func (s *shop) book(earliest time.Time, need, settle time.Duration, diaries ...*diary) time.Time {
	start := s.fit(earliest, need)
	if start.After(earliest) {
		start = s.fit(start.Add(settle), need)
	}
	for {
		moved := false
		for _, d := range diaries {
			if free, clash := d.clash(start, start.Add(need)); clash {
				start, moved = s.fit(free.Add(settle), need), true
			}
		}
		if !moved {
			break
		}
	}
	for _, d := range diaries {
		d.taken = append(d.taken, interval{start, start.Add(need)})
	}
	return start
}
