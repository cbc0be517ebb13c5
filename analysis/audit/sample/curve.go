package sample

import (
	"fmt"
	"math"
	"strings"

	"plumbline/analysis/stats"
)

// A curvePoint is the chance that a lot with so many bad jobs is accepted.
type curvePoint struct {
	Bad    int64
	Share  float64
	Chance float64
}

// Characteristic is the plan's operating characteristic over the lot itself (type A, hypergeometric): from no bad job
// to the first number of bad ones that is accepted with less than one chance in a thousand.
func (p Plan) Characteristic() ([]curvePoint, error) {
	step := max(1, p.Lot/400)
	var curve []curvePoint
	for bad := int64(0); bad <= p.Lot; bad += step {
		chance, err := stats.AcceptanceProbability(p.Lot, bad, p.Size, p.Accept)
		if err != nil {
			return nil, err
		}
		curve = append(curve, curvePoint{bad, float64(bad) / float64(p.Lot), chance})
		if chance < 0.001 {
			break
		}
	}
	return curve, nil
}

// Turning picks the points of the curve that people ask for: the last number of bad jobs still accepted with each of
// these chances or more.
func Turning(curve []curvePoint) []curvePoint {
	var picked []curvePoint
	for _, chance := range []float64{0.95, 0.5, 0.1, 0.05} {
		last := curve[0]
		for _, point := range curve {
			if point.Chance >= chance {
				last = point
			}
		}
		if len(picked) == 0 || picked[len(picked)-1] != last {
			picked = append(picked, last)
		}
	}
	return picked
}

// The drawing's measures, in the units of its view box.
const (
	plotLeft, plotTop, plotWidth, plotHeight = 60.0, 16.0, 560.0, 240.0
)

// DrawCurve draws the operating characteristic as SVG, which needs no script and no network.
func DrawCurve(curve []curvePoint, title string) string {
	last := curve[len(curve)-1].Share
	x := func(share float64) float64 { return plotLeft + plotWidth*share/math.Max(last, 1e-9) }
	y := func(chance float64) float64 { return plotTop + plotHeight*(1-chance) }
	var b strings.Builder
	fmt.Fprintf(&b, `<svg viewBox="0 0 656 310" role="img" aria-label="%s"><title>%s</title>`, title, title)
	for i := range 5 {
		chance, share := float64(i)/4, last*float64(i)/4
		fmt.Fprintf(&b, `<line class="grid" x1="%.1f" y1="%.1f" x2="%.1f" y2="%.1f"/>`,
			plotLeft, y(chance), plotLeft+plotWidth, y(chance))
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" text-anchor="end">%.0f %%</text>`, plotLeft-8, y(chance)+4, 100*chance)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" text-anchor="middle">%.1f %%</text>`,
			x(share), plotTop+plotHeight+18, 100*share)
	}
	fmt.Fprintf(&b, `<text x="%.1f" y="302" text-anchor="middle">share of bad jobs in the lot</text>`,
		plotLeft+plotWidth/2)
	fmt.Fprintf(&b, `<polyline class="curve" points="`)
	for _, point := range curve {
		fmt.Fprintf(&b, "%.1f,%.1f ", x(point.Share), y(point.Chance))
	}
	b.WriteString(`"/></svg>`)
	return b.String()
}
