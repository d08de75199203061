package chart

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// markStyles say how each kind of mark looks and what it is called, by kind.
// The shapes differ as much as the inks do.
var markStyles = [...]struct {
	name   string // in the margin
	said   string // in a sentence
	letter rune   // in the text chart
	ink    ink
	shape  func(at vg.Point, r vg.Length) vg.Path
}{
	Turned:  {"turned", "Turned", 'T', black, triangle},
	Watered: {"watered", "Watered", 'W', blue, drop},
	Added:   {"added", "Material added", 'A', green, square},
	Covered: {"covered", "Covered", 'C', plum, dome},
}

func polygon(points ...vg.Point) vg.Path {
	var path vg.Path
	path.Move(points[0])
	for _, p := range points[1:] {
		path.Line(p)
	}
	path.Close()
	return path
}

func triangle(at vg.Point, r vg.Length) vg.Path {
	return polygon(vg.Point{X: at.X, Y: at.Y + r}, vg.Point{X: at.X - r, Y: at.Y - 0.8*r}, vg.Point{X: at.X + r, Y: at.Y - 0.8*r})
}

func square(at vg.Point, r vg.Length) vg.Path {
	s := 0.8 * r
	return polygon(vg.Point{X: at.X - s, Y: at.Y - s}, vg.Point{X: at.X + s, Y: at.Y - s},
		vg.Point{X: at.X + s, Y: at.Y + s}, vg.Point{X: at.X - s, Y: at.Y + s})
}

func drop(at vg.Point, r vg.Length) vg.Path {
	belly := 0.7 * r
	var path vg.Path
	path.Move(vg.Point{X: at.X, Y: at.Y + 1.2*r})
	path.Arc(vg.Point{X: at.X, Y: at.Y - 0.3*r}, belly, math.Pi*5/6, math.Pi*4/3)
	path.Close()
	return path
}

func dome(at vg.Point, r vg.Length) vg.Path {
	var path vg.Path
	path.Move(vg.Point{X: at.X + r, Y: at.Y - 0.6*r})
	path.Arc(vg.Point{X: at.X, Y: at.Y - 0.6*r}, r, 0, math.Pi)
	path.Close()
	return path
}

func circle(at vg.Point, r vg.Length) vg.Path {
	var path vg.Path
	path.Move(vg.Point{X: at.X + r, Y: at.Y})
	path.Arc(at, r, 0, 2*math.Pi)
	path.Close()
	return path
}

func box(low, high vg.Point) vg.Path {
	return polygon(low, vg.Point{X: high.X, Y: low.Y}, high, vg.Point{X: low.X, Y: high.Y})
}

// fill paints a shape.
func (p *picture) fill(i ink, path vg.Path) {
	p.c.SetColor(i)
	p.c.Fill(path)
}

// The dots of readings: smaller when there are so many that they would hide
// each other. Own choices.
const (
	dotRadius      = 7
	smallDotRadius = 4
	manyDots       = 80
)

// dot is a reading of the heap: full, with a rim that keeps it apart from the
// band and from its neighbour.
func (p *picture) dot(at vg.Point, r vg.Length) {
	p.fill(white, circle(at, 1.3*r))
	p.fill(black, circle(at, r))
}

// ring is a reading of the air.
func (p *picture) ring(at vg.Point, r vg.Length) {
	p.fill(slate, circle(at, r))
	p.fill(white, circle(at, 0.55*r))
}
