package intake

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"plumbline/analysis/history"
	"plumbline/analysis/intake/profile"
)

// A shift is a moment from which on a zone's clocks are so many seconds ahead of UTC.
type shift struct {
	Since   string `json:"since"`
	Seconds int    `json:"seconds"`
}

// shiftsOf lists a zone's shifts from 1970 to the end of 2099, the first from the beginning of time.
func shiftsOf(location *time.Location) []shift {
	const layout = "2006-01-02 15:04:05"
	at := time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC).In(location)
	_, seconds := at.Zone()
	shifts := []shift{{"0001-01-01 00:00:00", seconds}}
	for {
		_, end := at.ZoneBounds()
		if end.IsZero() || end.Year() > 2099 {
			return shifts
		}
		if !end.After(at) { // at the turn of some years ZoneBounds answers with the moment itself
			at = at.Add(24 * time.Hour)
			continue
		}
		_, seconds := end.Zone()
		shifts = append(shifts, shift{end.UTC().Format(layout), seconds})
		at = end
	}
}

// layZone lays out the import's zone for the engine, which has no zones of its own.
func (im *importing) layZone() error {
	if im.o.Zone == "" {
		return nil
	}
	found, err := profile.Location(im.o.Zone)
	if err != nil {
		return err
	}
	shifts, err := json.Marshal(shiftsOf(found))
	if err != nil {
		return err
	}
	return im.h.Exec(im.ctx, "intake/zone_shifts", history.Params{"shifts": string(shifts)})
}

// layZoneMoments converts what the part has in moments with an offset, each text once.
func (im *importing) layZoneMoments(p *part) error {
	var texts []string
	for _, c := range p.kind.Columns {
		if _, has := p.places[c.Name]; has && c.IsMoment() {
			texts = append(texts, "select "+p.textOf(c.Name)+" as written from read_rows")
		}
	}
	if len(texts) == 0 {
		texts = []string{"select null::varchar as written limit 0"}
	}
	return im.runAs("import of "+p.kind.Name, fmt.Sprintf(`create or replace temporary table zone_moments as
with written as (%s),
instants as (
    select written, read_moment(written) - to_seconds(offset_seconds(written)) as utc
    from written
    where read_moment(written) is not null and offset_seconds(written) is not null
)
select written, utc + to_seconds(seconds) as at
from instants
asof join zone_shifts on utc >= since`, strings.Join(texts, "\nunion ")), nil)
}
