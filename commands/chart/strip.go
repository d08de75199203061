package chart

import "gonum.org/v1/plot/vg"

const markRadius = 9

// manyTurns is how many turns get a line through the panel, to show what each
// did; more would hide it. Own choice.
const manyTurns = 12

// drawLanes draws what was done: a row for each kind, named in the margin.
func (p *picture) drawLanes() {
	y := p.panel.Min.Y - stripGap/2 - laneHeight/2
	for _, kind := range p.lanes {
		style := markStyles[kind]
		p.write(p.faces.plain, vg.Point{X: p.panel.Min.X - 12, Y: middle(y)}, toLeft, style.ink, style.name)
		lane := p.lane(kind)
		for _, m := range lane {
			x := p.x(p.share(m.At))
			if kind == Turned && len(lane) <= manyTurns {
				p.line(turnLine, vg.Point{X: x, Y: y}, vg.Point{X: x, Y: p.panel.Max.Y})
			}
			p.fill(style.ink, style.shape(vg.Point{X: x, Y: y}, markRadius))
		}
		y -= laneHeight
	}
}

// drawRain draws a bar for each day, on a scale of its own. Rain to come is
// hollow.
func (p *picture) drawRain() {
	if len(p.rain) == 0 {
		return
	}
	foot, top := p.strip.Min.Y, p.rainTop()
	room := p.strip.Size().Y - 6
	p.across(gridLine, foot+room)
	for _, r := range p.rain {
		left, right := p.x(p.share(r.Day)), p.x(p.share(midnight(r.Day, 1)))
		if right-left > 5 {
			left, right = left+1, right-1
		}
		high := vg.Length(p.depth(r.Mm)/top) * room
		if high <= 0 {
			continue
		}
		bar := box(vg.Point{X: left, Y: foot}, vg.Point{X: max(right, left+1), Y: foot + max(high, 2)})
		if !r.Forecast {
			p.fill(blue, bar)
			continue
		}
		p.fill(paleBlue, bar)
		p.c.SetLineStyle(rainLine)
		p.c.Stroke(bar)
	}
	p.across(axisLine, foot)
	margin := p.strip.Min.X - 12
	p.write(p.faces.plain, vg.Point{X: margin, Y: middle(foot + room)}, toLeft, blue, p.sayRainTop())
	p.write(p.faces.plain, vg.Point{X: margin, Y: foot + 6}, toLeft, blue, "rain")
}
