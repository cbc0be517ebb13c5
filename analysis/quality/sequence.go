package quality

import (
	"fmt"
	"time"
)

// numbers are a sequence that the database gives as a list, whole or fractional.
type numbers []float64

// Scan takes the list from the driver; a missing one is empty.
func (n *numbers) Scan(source any) error {
	if source == nil {
		*n = nil
		return nil
	}
	list, ok := source.([]any)
	if !ok {
		return fmt.Errorf("a list was expected, not %T", source)
	}
	*n = make(numbers, len(list))
	for i, element := range list {
		switch x := element.(type) {
		case float64:
			(*n)[i] = x
		case int64:
			(*n)[i] = float64(x)
		default:
			return fmt.Errorf("a list of numbers was expected, not of %T", element)
		}
	}
	return nil
}

// day is the first moment of the day that lies so many days after 1970-01-01.
func day(sinceEpoch float64) time.Time { return time.Unix(int64(sinceEpoch)*86400, 0).UTC() }

// meanOf is the arithmetic mean, 0 of none.
func meanOf(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	sum := 0.0
	for _, value := range values {
		sum += value
	}
	return sum / float64(len(values))
}
