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

// LargeLotAcceptance is the chance that a sample from a lot far larger than itself is accepted when the share defective is
// bad.
//
//	Pa = sum of C(n, k) p^k (1-p)^(n-k) over k from 0 to the acceptance number
//
// Source: NIST/SEMATECH e-Handbook 6.2.3.2; type B operating characteristic.
//
// Input: defective from 0 to 1, sample and accept 0 or more. Anything else is an error.
func LargeLotAcceptance(defective float64, sample, accept int64) (float64, error) {
	if err := checkProbability("share defective", defective); err != nil {
		return 0, fmt.Errorf("acceptance probability: %w", err)
	}
	if sample < 0 || sample > maxUnits || accept < 0 {
		return 0, fmt.Errorf("acceptance probability: sample %d, acceptance number %d: neither is negative", sample, accept)
	}
	return binomial{n: sample, p: defective, q: 1 - defective}.below(accept), nil
}

// DefectiveShareAt is the share defective at which a plan accepts a large lot with the given probability: 0.95 gives the
// quality that mostly passes, 0.10 the one that mostly does not. It solves LargeLotAcceptance for the share.
//
// Input: sample 1 or more, accept 0 or more and below sample, probability above 0 and below 1. Anything else is an error.
func DefectiveShareAt(sample, accept int64, probability float64) (float64, error) {
	if !(probability > 0 && probability < 1) {
		return 0, fmt.Errorf("share defective: acceptance probability %v lies above 0 and below 1", probability)
	}
	if accept < 0 || accept >= sample || sample > maxUnits {
		return 0, fmt.Errorf("share defective: acceptance number %d and sample %d: the plan accepts everything or is none", accept, sample)
	}
	return root(func(share float64) float64 {
		return binomial{n: sample, p: share, q: 1 - share}.below(accept) - probability
	}, 0, 1), nil
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

// ZeroFailureSize is the smallest sample from a large lot that, with the given confidence, holds at least one bad unit if
// the share defective or more is bad.
//
//	smallest n with (1-p)^n <= 1 - confidence
//
// Source: Hanley & Lippman-Hand (1983) JAMA 249:1743-1745.
//
// Input: share from 1e-12 to below 1, confidence above 0 and below 1. Anything else is an error.
func ZeroFailureSize(defective, confidence float64) (int64, error) {
	if !(defective >= 1e-12 && defective < 1) {
		return 0, fmt.Errorf("zero-failure sample: share defective %v lies between 1e-12 and 1", defective)
	}
	if err := checkLevel(confidence); err != nil {
		return 0, fmt.Errorf("zero-failure sample: %w", err)
	}
	n := math.Log1p(-confidence) / math.Log1p(-defective)
	return int64(math.Max(1, math.Ceil(n-1e-9))), nil
}
