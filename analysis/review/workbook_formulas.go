package review

import (
	"fmt"
	"strings"

	"plumbline/analysis/stats"
)

// normalName is the cell that holds the normal deviate of a 95 % interval, laborName the one of the labor rate.
const (
	normalName = "z_95"
	laborName  = "labor_rate"
)

// deviate95 is the standard normal deviate that 97.5 % lie below; the workbook works it out itself.
const deviate95 = 1.959963984540054

// liveRate is count over n, empty where there is nothing to divide by.
func liveRate(count, n string, value *float64) live {
	return live{fmt.Sprintf(`IF({%[2]s}=0,"",{%[1]s}/{%[2]s})`, count, n), value}
}

// liveShare is liveRate with its value worked out.
func liveShare(count, n string, p stats.Proportion) live {
	if p.N == 0 {
		return liveRate(count, n, nil)
	}
	value := p.Rate()
	return liveRate(count, n, &value)
}

// liveWilson is the interval of a share as formulas, so that a reader can see how it is made.
//
//	(2x + z^2 -+ z sqrt(z^2 + 4x(1 - x/n))) / (2(n + z^2))
//
// Source: Newcombe (1998) Statistics in Medicine 17:857-872, method 3.
func liveWilson(count, n string, low, high *float64) (live, live) {
	bound := func(cut, edge, sign string) string {
		text := `IF({n}=0,"",CUT(EDGE,(2*{x}+Z^2SIGNZ*SQRT(Z^2+4*{x}*(1-{x}/{n})))/(2*({n}+Z^2))))`
		return strings.NewReplacer("{n}", "{"+n+"}", "{x}", "{"+count+"}", "Z", normalName, "SIGN", sign, "CUT", cut, "EDGE", edge).
			Replace(text)
	}
	return live{bound("MAX", "0", "-"), low}, live{bound("MIN", "1", "+"), high}
}

// liveWilsonOf is liveWilson with its values worked out.
func liveWilsonOf(count, n string, p stats.Proportion) (live, live, error) {
	if p.N == 0 {
		low, high := liveWilson(count, n, nil, nil)
		return low, high, nil
	}
	interval, err := stats.Wilson(p, stats.Level95)
	low, high := liveWilson(count, n, &interval.Low, &interval.High)
	return low, high, err
}

// liveGarwood is the exact Poisson interval of occurrences a unit; the gamma quantiles are those of chi-squared.
// Source: Garwood (1936) Biometrika 28:437-442.
func liveGarwood(count, n string, low, high *float64) (live, live) {
	named := strings.NewReplacer("{n}", "{"+n+"}", "{x}", "{"+count+"}")
	return live{named.Replace(`IF({n}=0,"",IF({x}=0,0,CHIINV(0.975,2*{x})/2/{n}))`), low},
		live{named.Replace(`IF({n}=0,"",CHIINV(0.025,2*{x}+2)/2/{n})`), high}
}
