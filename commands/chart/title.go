package chart

import (
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

const titleLeft = 14

// drawTitle names the heap and says its latest reading.
func (p *picture) drawTitle() {
	y := vg.Length(height - titleHeight + 10)
	right := vg.Length(width - marginRight)
	if core := p.core(); len(core) > 0 {
		last := core[len(core)-1]
		said := p.m.SayTemperature(last.C) + " on " + p.date(last.At)
		p.write(p.faces.title, vg.Point{X: right, Y: y}, toLeft, black, said)
		right -= p.faces.title.Width(said) + 20
	}
	name := p.faces.drawable(p.name)
	for n := len([]rune(name)); n > 4 && titleLeft+p.faces.title.Width(name) > right; n-- {
		name = clip(name, n)
	}
	p.write(p.faces.title, vg.Point{X: titleLeft, Y: y}, toRight, black, name)
}

// sample is the width of a key's picture.
const sample = 34

// key is one entry of the legend.
type key struct {
	name string
	draw func(at vg.Point) // at is the middle of the sample's left edge
}

func (p *picture) keys() []key {
	var out []key
	add := func(there bool, name string, draw func(vg.Point)) {
		if there {
			out = append(out, key{name, draw})
		}
	}
	core := len(p.core())
	estimate, outlook := p.bandCounts()
	air := "air"
	if p.longAir() {
		air = "air, daily mean"
	}
	add(core > 0, "reading", func(at vg.Point) { p.dot(vg.Point{X: at.X + sample/2, Y: at.Y}, dotRadius) })
	add(estimate > 0, "estimate", func(at vg.Point) { p.swatch(at, clay, midLine) })
	add(outlook > 0, "outlook", func(at vg.Point) { p.swatch(at, sand, outlookLine) })
	add(len(p.air) > 0, air, func(at vg.Point) { p.line(airLine, at, vg.Point{X: at.X + sample, Y: at.Y}) })
	add(core < len(p.readings), "air read", func(at vg.Point) { p.ring(vg.Point{X: at.X + sample/2, Y: at.Y}, dotRadius) })
	return out
}

// swatch is a piece of band with its middle.
func (p *picture) swatch(at vg.Point, band ink, middle draw.LineStyle) {
	p.fill(band, box(vg.Point{X: at.X, Y: at.Y - 9}, vg.Point{X: at.X + sample, Y: at.Y + 9}))
	p.line(middle, at, vg.Point{X: at.X + sample, Y: at.Y})
}

// drawLegend explains what is in the panel; the strips are named beside them.
func (p *picture) drawLegend() {
	at := vg.Point{X: titleLeft, Y: height - titleHeight - legendHeight/2 + 10}
	for _, k := range p.keys() {
		k.draw(at)
		at.X += sample + 6
		p.write(p.faces.plain, vg.Point{X: at.X, Y: middle(at.Y)}, toRight, grey, k.name)
		at.X += p.faces.plain.Width(k.name) + 18
	}
}
