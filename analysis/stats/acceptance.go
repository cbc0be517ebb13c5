package stats

import (
	"fmt"
	"math"
)

// AcceptanceProbability is the chance that a sample drawn without return from a lot is accepted: that it holds at most
// accept defective units.
//
//	Pa = sum of C(D, k) C(N-D, n-k) / C(N, n) over k from 0 to the acceptance number
//
// Source: MIL-STD-105E (1989) section 4 for the plan; Duncan (1986) Quality Control and Industrial Statistics, 5th ed.,
// chapter 7, type A operating characteristic.
//
// Input: lot units of which defective are bad, sample of them drawn, 0 <= defective, sample <= lot; accept 0 or more.
// Nothing drawn is accepted. Anything else is an error.
func AcceptanceProbability(lot, defective, sample, accept int64) (float64, error) {
	if err := (Proportion{Count: defective, N: lot}).check(); err != nil {
		return 0, fmt.Errorf("acceptance probability: defective units: %w", err)
	}
	if err := (Proportion{Count: sample, N: lot}).check(); err != nil {
		return 0, fmt.Errorf("acceptance probability: sample: %w", err)
	}
	if accept < 0 {
		return 0, fmt.Errorf("acceptance probability: acceptance number %d: it is 0 or more", accept)
	}
	law := hypergeometric{hits: defective, n: sample, total: lot}
	switch {
	case accept >= law.high():
		return 1, nil
	case accept < law.low():
		return 0, nil
	case accept < law.mode():
		return math.Exp(law.logBelow(accept)), nil
	}
	return -math.Expm1(law.logAbove(accept + 1)), nil
}

// DiscoverySampleSize is the smallest sample from a lot that, with the given confidence, holds at least one of its
// defective units.
//
//	smallest n with C(N-D, n) / C(N, n) <= 1 - confidence
//
// Source: the hypergeometric zero term; Arkin (1984) Handbook of Sampling for Auditing and Accounting, 3rd ed., on
// discovery sampling.
//
// Input: lot units of which defective are bad, 1 <= defective <= lot; confidence above 0 and below 1. Anything else is an
// error.
func DiscoverySampleSize(lot, defective int64, confidence float64) (int64, error) {
	if err := (Proportion{Count: defective, N: lot}).check(); err != nil {
		return 0, fmt.Errorf("discovery sample: defective units: %w", err)
	}
	if defective < 1 {
		return 0, fmt.Errorf("discovery sample: no defective unit can be found where there is none")
	}
	if err := checkLevel(confidence); err != nil {
		return 0, fmt.Errorf("discovery sample: %w", err)
	}
	// Too few and enough; a sample of everything but the other defective ones is always enough.
	low, high := int64(0), lot-defective+1
	limit := math.Log1p(-confidence) + 1e-12
	for high-low > 1 {
		middle := low + (high-low)/2
		if (hypergeometric{hits: defective, n: middle, total: lot}).logMass(0) <= limit {
			high = middle
		} else {
			low = middle
		}
	}
	return high, nil
}
