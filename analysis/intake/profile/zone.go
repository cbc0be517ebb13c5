package profile

import (
	"fmt"
	"time"
	_ "time/tzdata" // zones are known on machines that have none installed
)

// Location finds a zone by its name.
func Location(zone string) (*time.Location, error) {
	found, err := time.LoadLocation(zone)
	if err != nil || zone == "Local" {
		return nil, fmt.Errorf("there is no time zone %q; write it as America/New_York", zone)
	}
	return found, nil
}
