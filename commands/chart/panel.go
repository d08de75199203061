package chart

import (
	"strconv"
	"time"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// drawGrid draws the degrees and the dates.
func (p *picture) drawGrid() {
	for i, degree := range p.degrees.labels {
		y := p.panel.Min.Y + vg.Length(p.degrees.share(degree))*p.panel.Size().Y
		p.across(gridLine, y)
		label := strconv.Itoa(int(degree))
		if i == len(p.degrees.labels)-1 {
			label += " " + p.degreeUnit()
		}
		p.write(p.faces.plain, vg.Point{X: p.panel.Min.X - 10, Y: middle(y)}, toLeft, grey, label)
	}
	for _, t := range ticks(p.from, p.to, p.zone, maxTicks) {
		x := p.x(p.share(t.at))
		p.line(gridLine, vg.Point{X: x, Y: datesHeight}, vg.Point{X: x, Y: p.panel.Max.Y})
		half := p.faces.plain.Width(t.label) / 2
		at := vg.Point{X: max(half, min(width-half-2, x)), Y: datesHeight - textSize - 2}
		p.write(p.faces.plain, at, centred, grey, t.label)
	}
	p.across(axisLine, p.panel.Min.Y)
}

// drawRibbons draws the estimate and the outlook: the band, then its middle.
func (p *picture) drawRibbons() {
	ribbons := p.ribbons()
	for _, ribbon := range ribbons {
		if len(ribbon) > 1 {
			p.fill(bandInk(ribbon), p.outline(ribbon))
		}
	}
	for _, ribbon := range ribbons {
		var middle []vg.Point
		for _, b := range ribbon {
			middle = append(middle, p.at(b.At, b.Mid))
		}
		if len(middle) > 1 {
			p.line(bandLine(ribbon), middle...)
			continue
		}
		b := ribbon[0] // one point alone: its span as a bar
		p.line(draw.LineStyle{Color: bandInk(ribbon), Width: 2 * dotRadius}, p.at(b.At, b.Low), p.at(b.At, b.High))
		p.line(draw.LineStyle{Color: rust, Width: 2 * dotRadius}, p.at(b.At, b.Mid-0.5), p.at(b.At, b.Mid+0.5))
	}
}

func bandInk(ribbon []BandPoint) ink {
	if ribbon[len(ribbon)-1].Forecast {
		return sand
	}
	return clay
}

func bandLine(ribbon []BandPoint) draw.LineStyle {
	if ribbon[len(ribbon)-1].Forecast {
		return outlookLine
	}
	return midLine
}

func (p *picture) at(t time.Time, c float64) vg.Point {
	return vg.Point{X: p.x(p.share(t)), Y: p.y(c)}
}

// outline runs along the low side of a ribbon and back along the high one.
func (p *picture) outline(ribbon []BandPoint) vg.Path {
	var points []vg.Point
	for _, b := range ribbon {
		points = append(points, p.at(b.At, b.Low))
	}
	for i := len(ribbon) - 1; i >= 0; i-- {
		points = append(points, p.at(ribbon[i].At, ribbon[i].High))
	}
	return polygon(points...)
}

func (p *picture) drawThreshold() {
	if !p.hasThreshold() {
		return
	}
	p.across(thresholdLine, p.y(p.thresholdC))
	label := "hygiene " + p.m.SayTemperature(p.thresholdC)
	p.note(p.freeSpot(p.y(p.thresholdC), p.faces.plain.Width(label)), toRight, plum, label)
}

// freeSpot finds a place for words of a width along a level line: of its ends
// and its middle, above and below, the first that hides least.
func (p *picture) freeSpot(y, w vg.Length) vg.Point {
	var best vg.Point
	least := -1
	for _, x := range []vg.Length{p.panel.Max.X - w - edge, p.panel.Min.X + edge, (p.panel.Min.X + p.panel.Max.X - w) / 2} {
		for _, foot := range []vg.Length{y + 7, y - 0.8*textSize - 5} {
			place := vg.Rectangle{Min: vg.Point{X: x, Y: foot}, Max: vg.Point{X: x + w, Y: foot + textSize}}
			if hidden := p.hidden(place); least < 0 || hidden < least {
				best, least = place.Min, hidden
			}
		}
	}
	return best
}

// hidden counts what a rectangle would cover.
func (p *picture) hidden(place vg.Rectangle) int {
	n := 0
	covers := func(t time.Time, low, high float64) {
		x := p.x(p.share(t))
		if x > place.Min.X-dotRadius && x < place.Max.X+dotRadius &&
			p.y(high) > place.Min.Y-dotRadius && p.y(low) < place.Max.Y+dotRadius {
			n++
		}
	}
	for _, r := range p.readings {
		covers(r.At, r.C, r.C)
	}
	for _, b := range p.band {
		covers(b.At, b.Low, b.High)
	}
	if !p.now.IsZero() {
		covers(p.now, coldestC, hottestC)
	}
	return n
}

// note writes words into the panel, on a veil that dims what lies below.
func (p *picture) note(at vg.Point, align vg.Length, i ink, s string) {
	w := p.faces.plain.Width(s)
	left := at.X - align*w
	p.fill(veil, box(vg.Point{X: left - 3, Y: at.Y - 4}, vg.Point{X: left + w + 3, Y: at.Y + 0.8*textSize}))
	p.write(p.faces.plain, at, align, i, s)
}

func (p *picture) drawAir() {
	var points []vg.Point
	for _, a := range p.air {
		points = append(points, p.at(a.At, a.C))
	}
	switch len(points) {
	case 0:
	case 1:
		p.ring(points[0], dotRadius)
	default:
		p.line(airLine, points...)
	}
}

func (p *picture) drawNow() {
	if p.now.IsZero() {
		return
	}
	x := p.x(p.share(p.now))
	p.line(nowLine, vg.Point{X: x, Y: datesHeight}, vg.Point{X: x, Y: p.panel.Max.Y})
	half := p.faces.plain.Width("now") / 2
	at := vg.Point{X: max(p.panel.Min.X+half, min(p.panel.Max.X-half, x)), Y: p.panel.Max.Y + 4}
	p.write(p.faces.plain, at, centred, black, "now")
}

func (p *picture) drawReadings() {
	dots := p.dots(p.readings)
	radius := vg.Length(dotRadius)
	if len(dots) > manyDots {
		radius = smallDotRadius
	}
	for _, r := range dots {
		if r.Air {
			p.ring(p.at(r.At, r.C), radius)
		} else {
			p.dot(p.at(r.At, r.C), radius)
		}
	}
	if _, _, ok := p.temperatures(); !ok {
		middle := vg.Point{X: (p.panel.Min.X + p.panel.Max.X) / 2, Y: (p.panel.Min.Y + p.panel.Max.Y) / 2}
		p.note(middle, centred, grey, noTemperatures)
	}
}
