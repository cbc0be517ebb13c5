package stats

import (
	"fmt"
	"testing"
)

func TestFunnelLimits(t *testing.T) {
	var file struct {
		Grid []struct {
			Theta float64
			N     int64
			P001  float64 `json:"p0_001"`
			P025  float64 `json:"p0_025"`
			P975  float64 `json:"p0_975"`
			P999  float64 `json:"p0_999"`
		}
	}
	source := reference(t, "12_funnel_limits.json", &file)
	for _, g := range file.Grid {
		name := fmt.Sprintf("%g of %d", g.Theta, g.N)
		funnel := must[Funnel](t)(FunnelLimits(g.Theta, g.N))
		law := binomial{n: g.N, p: g.Theta, q: 1 - g.Theta}
		// The definitions set an upper limit that only the largest count reaches to 1, the file does not.
		want95, want998 := g.P975, g.P999
		if r, _, _ := law.quantile(0.975); r == g.N {
			source.near(name+" uncut", funnelLimit(law, 0.975), g.P975, tenDigits)
			want95 = 1
		}
		if r, _, _ := law.quantile(0.999); r == g.N {
			source.near(name+" uncut", funnelLimit(law, 0.999), g.P999, tenDigits)
			want998 = 1
		}
		source.nearInterval(name+" 95 %", funnel.Limits95, [2]float64{g.P025, want95})
		source.nearInterval(name+" 99.8 %", funnel.Limits998, [2]float64{g.P001, want998})
	}
}

func TestFunnelLimitsByHand(t *testing.T) {
	// One unit with rate 0.2: F(0) = 0.8 holds both lower shares, and only r = 1 = n reaches the upper ones.
	one := must[Funnel](t)(FunnelLimits(0.2, 1))
	if want := (Funnel{Interval{0, 1}, Interval{0, 1}}); one != want {
		t.Errorf("one unit: %v", one)
	}
	// Two units with rate 0.1: F = 0.81, 0.99, 1. The 97.5 % limit has r = 1: (1 - (0.99-0.975)/0.18)/2.
	two := must[Funnel](t)(FunnelLimits(0.1, 2))
	if want := (1 - 0.015/0.18) / 2; !tolerantlyEqual(two.Limits95.High, want, 1e-12) || two.Limits998.High != 1 {
		t.Errorf("two units: %v, want %v", two, want)
	}
	for _, c := range []struct {
		rate float64
		low  float64
		high float64
	}{{0, 0, 0}, {1, 1 - 0.975/10, 1}} {
		f := must[Funnel](t)(FunnelLimits(c.rate, 10))
		if !tolerantlyEqual(f.Limits95.Low, c.low, 1e-12) || f.Limits95.High != c.high {
			t.Errorf("rate %g: %v", c.rate, f)
		}
	}
	for _, bad := range []struct {
		rate float64
		n    int64
	}{{-0.1, 5}, {1.1, 5}, {0.1, 0}, {0.1, -1}} {
		if _, err := FunnelLimits(bad.rate, bad.n); err == nil {
			t.Errorf("%v passes", bad)
		}
	}
}

func TestBinomialDistribution(t *testing.T) {
	// Type B operating characteristics are binomial distribution values.
	source := from(t, "NIST/SEMATECH e-Handbook 6.2.3.2 and R 4.2.2 pbinom")
	for _, c := range []struct {
		n, x int64
		p    float64
		want float64
	}{
		{52, 3, 0.01, 0.9981530653}, {52, 3, 0.06, 0.6195938734}, {52, 3, 0.12, 0.115198416},
		{80, 7, 0.05, 0.9534084725}, {80, 7, 0.15, 0.07271749286},
	} {
		source.near(fmt.Sprint(c), binomial{n: c.n, p: c.p, q: 1 - c.p}.below(c.x), c.want, tenDigits)
	}
}
