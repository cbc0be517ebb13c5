package review

import "plumbline/analysis/quality"

// rework is the work done again in one month, both causes together.
type rework struct {
	attempts, withoutEnd int64
	hours                float64
}

func reworkIn(lines []quality.ReworkLine, month string) rework {
	var sum rework
	for _, line := range lines {
		if line.Month == month {
			sum.attempts += line.Attempts
			sum.withoutEnd += line.WithoutEnd
			sum.hours += line.Hours
		}
	}
	return sum
}

// money is the cost of hours at the labor rate; empty where no rate was given.
func (a About) money(hours float64) string {
	if a.LaborRate == nil {
		return ""
	}
	amount := count(int64(hours**a.LaborRate + 0.5))
	if a.Currency == "" {
		return amount
	}
	return amount + nbsp + a.Currency
}
