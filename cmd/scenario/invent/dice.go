package invent

import (
	"math/rand/v2"
	"time"
)

// dice is a group's only source of chance.
type dice struct{ *rand.Rand }

func newDice(seed, stream uint64) dice { return dice{rand.New(rand.NewPCG(seed, stream))} }

func (d dice) chance(p float64) bool { return d.Float64() < p }

// between draws a whole number from low to high, both included.
func (d dice) between(low, high int) int { return low + d.IntN(high-low+1) }

// minutes draws a length of time from low to high minutes, to the second.
func (d dice) minutes(low, high int) time.Duration {
	return time.Duration(d.between(60*low, 60*high)) * time.Second
}

// uniform draws evenly from low to high. The product is rounded by itself, so
// that no machine fuses it with the sum and draws another last digit.
func (d dice) uniform(low, high float64) float64 { return low + float64((high-low)*d.Float64()) }

// normal draws from a normal distribution around 0, drawn in at the limit.
func (d dice) normal(sd, limit float64) float64 {
	return min(max(float64(d.NormFloat64()*sd), -limit), limit)
}

func pick[T any](d dice, from ...T) T { return from[d.IntN(len(from))] }

// option is a value and how often it comes up among its like.
type option[T any] struct {
	weight int
	value  T
}

func draw[T any](d dice, options []option[T]) T {
	total := 0
	for _, o := range options {
		total += o.weight
	}
	at := d.IntN(total)
	for _, o := range options {
		if at < o.weight {
			return o.value
		}
		at -= o.weight
	}
	panic("invent: options without weight")
}
