package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// The text chart in characters. Own choices: twelve lines stay on one screen
// with the question and the answer.
const (
	minWidth, maxWidth = 24, 76
	rows               = 7
	margin             = 5 // a label of four and the bar
	columnsPerTick     = 10
)

// What is drawn with what.
const (
	readingRune   = 'o'
	airReadRune   = 'x'
	estimateRune  = '▒'
	outlookRune   = '░'
	middleRune    = '='
	airRune       = '.'
	thresholdRune = '-'
	nowRune       = '|'
)

// rainRunes are the heights of a bar of rain.
var rainRunes = []rune(" ▁▂▃▄▅▆▇█")

// page is a view being written as text: a grid of characters, top row first.
type page struct {
	*view
	grid      [rows][]rune
	low, high float64 // the degrees of the lowest and the highest row
}

// Text draws the heap's course in at most 12 lines of at most width
// characters (24 to 76). With nothing to draw it says so.
func Text(d Data, width int) string {
	v, err := look(d)
	if err != nil {
		return nothing
	}
	width = max(minWidth, min(maxWidth, width))
	p := newPage(&v, width-margin)
	p.fillAir()
	p.fillBand()
	p.fillLines()
	p.fillReadings()
	title, left := keyLine(append([]string{v.name + ", " + v.degreeUnit()}, v.signs()...), width)
	lines := []string{title}
	for i, row := range p.grid {
		lines = append(lines, fmt.Sprintf("%4s|", p.label(i))+string(row))
	}
	lines = append(lines, v.textLanes(width-margin)...)
	lines = append(lines, v.textDates(width-margin))
	if signs := append(left, v.stripSigns()...); len(signs) > 0 {
		key, _ := keyLine(signs, width)
		lines = append(lines, key)
	}
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " ")
	}
	return strings.Join(lines, "\n")
}

func newPage(v *view, columns int) *page {
	step := degreeScales[v.m.Fahrenheit].step
	low, high, ok := v.temperatures()
	if !ok {
		low, high = degreeScales[v.m.Fahrenheit].low, degreeScales[v.m.Fahrenheit].high
	}
	p := &page{view: v, low: math.Floor(low/step) * step, high: math.Ceil(high/step) * step}
	if p.high-p.low < 2*step {
		p.high = p.low + 2*step
	}
	for i := range p.grid {
		p.grid[i] = slices.Repeat([]rune{' '}, columns)
	}
	return p
}

// label names the top, the middle and the lowest row.
func (p *page) label(row int) string {
	if row%(rows/2) != 0 {
		return ""
	}
	return fmt.Sprintf("%.0f", p.high-(p.high-p.low)*float64(row)/(rows-1))
}

func (p *page) row(c float64) int {
	return int(math.Round((p.high - p.degree(c)) / (p.high - p.low) * (rows - 1)))
}

// column is where a time lies on an axis of so many columns.
func (v *view) column(at time.Time, columns int) int {
	return max(0, min(columns-1, int(v.share(at)*float64(columns))))
}

func (p *page) put(at time.Time, c float64, r rune) {
	row := p.grid[p.row(c)]
	row[p.column(at, len(row))] = r
}

func (p *page) fillAir() {
	for _, a := range p.air {
		p.put(a.At, a.C, airRune)
	}
}

// fillBand shades each column from the low side of the band to the high one.
func (p *page) fillBand() {
	columns := len(p.grid[0])
	for x := range columns {
		at := p.from.Add(time.Duration((float64(x) + 0.5) / float64(columns) * float64(p.to.Sub(p.from))))
		b, ok := p.bandAt(at, p.to.Sub(p.from)/time.Duration(columns))
		if !ok {
			continue
		}
		shade := estimateRune
		if b.Forecast {
			shade = outlookRune
		}
		for y := p.row(b.High); y <= p.row(b.Low); y++ {
			p.grid[y][x] = shade
		}
		p.grid[p.row(b.Mid)][x] = middleRune
	}
}

// bandAt is the band at a time, between its neighbours; false when it lies
// further than near outside the band.
func (v *view) bandAt(at time.Time, near time.Duration) (BandPoint, bool) {
	i, _ := slices.BinarySearchFunc(v.band, at, func(b BandPoint, t time.Time) int { return b.At.Compare(t) })
	switch {
	case len(v.band) == 0:
		return BandPoint{}, false
	case i == 0:
		return v.band[0], v.band[0].At.Sub(at) < near
	case i == len(v.band):
		return v.band[i-1], at.Sub(v.band[i-1].At) < near
	}
	a, b := v.band[i-1], v.band[i]
	if b.At.Equal(a.At) {
		return b, true
	}
	w := float64(at.Sub(a.At)) / float64(b.At.Sub(a.At))
	between := func(a, b float64) float64 { return a + w*(b-a) }
	b.Low, b.Mid, b.High = between(a.Low, b.Low), between(a.Mid, b.Mid), between(a.High, b.High)
	return b, true
}

// fillLines draws the threshold and now where nothing else is.
func (p *page) fillLines() {
	if p.hasThreshold() {
		row := p.grid[p.row(p.thresholdC)]
		for x, r := range row {
			if r == ' ' {
				row[x] = thresholdRune
			}
		}
	}
	if p.now.IsZero() {
		return
	}
	for _, row := range p.grid {
		if x := p.column(p.now, len(row)); row[x] == ' ' || row[x] == thresholdRune {
			row[x] = nowRune
		}
	}
}

func (p *page) fillReadings() {
	for _, r := range p.readings {
		if r.Air {
			p.put(r.At, r.C, airReadRune)
		}
	}
	for _, r := range p.core() {
		p.put(r.At, r.C, readingRune)
	}
	if _, _, ok := p.temperatures(); !ok {
		copy(p.grid[rows/2][1:], []rune(noTemperatures))
	}
}
