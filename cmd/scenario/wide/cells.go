package wide

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"plumbline/cmd/scenario/record"
)

// Both factors are exact (NIST SP 811, Appendix B).
const (
	kmPerMile = 1.609344
	mmPerInch = 25.4
)

func date(t time.Time) string   { return format(t, "01/02/2006") }
func clock(t time.Time) string  { return format(t, "3:04 PM") }
func moment(t time.Time) string { return format(t, "01/02/2006 3:04:05 PM") }

func format(t time.Time, as string) string {
	if t.IsZero() {
		return ""
	}
	return t.Format(as)
}

// decimal writes a number with a decimal comma and a point for thousands.
func decimal(x float64, decimals int) string {
	sign := ""
	if x < 0 {
		sign, x = "-", -x
	}
	whole, fraction, _ := strings.Cut(strconv.FormatFloat(x, 'f', decimals, 64), ".")
	for at := len(whole) - 3; at > 0; at -= 3 {
		whole = whole[:at] + "." + whole[at:]
	}
	if fraction == "" {
		return sign + whole
	}
	return sign + whole + "," + fraction
}

// convert rewrites a decimal of the record layout in another unit; empty
// stays empty.
func convert(written string, factor float64, decimals int) string {
	x, err := strconv.ParseFloat(written, 64)
	if err != nil {
		return ""
	}
	return decimal(x*factor, decimals)
}

// reading looks up what was measured for an attempt, or for the job with the
// zero attempt.
func reading(v *record.Visit, of record.Attempt, quantity string) string {
	for _, r := range v.Readings {
		if of.Owns(r) && r.Quantity == quantity {
			return r.Value
		}
	}
	return ""
}

func scan(v *record.Visit, stage string) (record.Scan, bool) {
	for _, s := range v.Scans {
		if s.Stage == stage {
			return s, true
		}
	}
	return record.Scan{}, false
}

// modules writes how many of the modules answered.
func modules(v *record.Visit, stage string) string {
	s, found := scan(v, stage)
	if !found {
		return ""
	}
	return fmt.Sprintf("%d of %d", s.Responded, s.Polled)
}

// codes lists the faults of a scan in one cell.
func codes(v *record.Visit, stage string) string {
	s, found := scan(v, stage)
	if !found {
		return ""
	}
	var read []string
	for _, f := range v.Faults {
		if f.ScanNo == s.No {
			read = append(read, fmt.Sprintf("%s: %s (%s)", f.Module, f.Code, f.Status))
		}
	}
	if len(read) == 0 {
		return "none"
	}
	return strings.Join(read, "; ")
}

// note puts code and text of a failure into one cell.
func note(a record.Attempt) string { return strings.TrimSpace(a.FailureCode + " " + a.FailureText) }

// names lists the systems of a session in one cell.
func names(tasks []record.Attempt) string {
	var words []string
	for _, a := range tasks {
		words = append(words, systems[a.System]+sides[a.Position])
	}
	return strings.Join(words, "; ")
}

// tires writes the four pressures in one cell.
func tires(v *record.Visit) string {
	var four []string
	for _, corner := range []string{"lf", "rf", "lr", "rr"} {
		if value := reading(v, record.Attempt{}, "tire_pressure_"+corner); value != "" {
			four = append(four, value)
		}
	}
	return strings.Join(four, "/")
}

// spacedVIN writes every ninth number in groups, as read out over the phone,
// and every seventh in small letters.
func spacedVIN(vin string, row int) string {
	switch {
	case row%9 == 4 && len(vin) == 17:
		return vin[:3] + " " + vin[3:9] + " " + vin[9:]
	case row%7 == 3:
		return strings.ToLower(vin)
	default:
		return vin
	}
}
