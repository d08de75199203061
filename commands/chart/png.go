package chart

import (
	"bytes"
	"fmt"
	"image/png"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
)

// The picture in pixels: a unit of length is one pixel. Own choice.
const (
	width, height = 800, 520
	marginLeft    = 96
	marginRight   = 18
	titleHeight   = 42
	legendHeight  = 46
	edge          = 8 // kept free at both ends of the panel
	datesHeight   = 32
	laneHeight    = 24
	rainHeight    = 62
	stripGap      = 14
	pixelsPerInch = 72 // of vg, whose point is then a pixel
)

// picture is a view being drawn.
type picture struct {
	*view
	c       draw.Canvas
	faces   faces
	panel   vg.Rectangle // where temperatures are drawn
	strip   vg.Rectangle // where rain is drawn; empty without rain
	lanes   []MarkKind   // the kinds of marks there are, from the top
	degrees scale
}

// PNG draws the heap's course as a picture 800 pixels wide that can be read at
// half that size. The same data gives the same bytes. With nothing to draw it
// returns a *fault.Error.
func PNG(d Data) ([]byte, error) {
	v, err := look(d)
	if err != nil {
		return nil, err
	}
	f, err := letters()
	if err != nil {
		return nil, fmt.Errorf("read the letters of the chart: %w", err)
	}
	img := vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(pixelsPerInch))
	p := &picture{view: &v, c: draw.New(img), faces: f, degrees: v.degreeScale()}
	p.layOut()
	p.draw()
	var buf bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := enc.Encode(&buf, img.Image()); err != nil {
		return nil, fmt.Errorf("write the chart: %w", err)
	}
	return buf.Bytes(), nil
}

// layOut divides the picture: the strips below take what they need, the panel
// has the rest.
func (p *picture) layOut() {
	foot := vg.Length(datesHeight)
	right := vg.Length(width - marginRight)
	if len(p.rain) > 0 {
		p.strip = vg.Rectangle{Min: vg.Point{X: marginLeft, Y: foot}, Max: vg.Point{X: right, Y: foot + rainHeight}}
		foot += rainHeight + stripGap
	}
	for kind := range markStyles {
		if len(p.lane(MarkKind(kind))) > 0 {
			p.lanes = append(p.lanes, MarkKind(kind))
		}
	}
	foot += laneHeight*vg.Length(len(p.lanes)) + stripGap
	p.panel = vg.Rectangle{
		Min: vg.Point{X: marginLeft, Y: foot},
		Max: vg.Point{X: right, Y: height - titleHeight - legendHeight},
	}
}

func (p *picture) draw() {
	p.drawGrid()
	p.drawRibbons()
	p.drawThreshold()
	p.drawAir()
	p.drawNow()
	p.drawReadings()
	p.drawLanes()
	p.drawRain()
	p.drawTitle()
	p.drawLegend()
}

// x is where a share of the window lies, y where a degree Celsius does.
func (p *picture) x(share float64) vg.Length {
	return p.panel.Min.X + edge + vg.Length(share)*(p.panel.Size().X-2*edge)
}

func (p *picture) y(c float64) vg.Length {
	return p.panel.Min.Y + vg.Length(p.degrees.share(p.degree(c)))*p.panel.Size().Y
}

// Where a text lies on the point it is given.
const (
	toLeft  = 1.0
	centred = 0.5
	toRight = 0.0
)

// write sets a text with its baseline at a point.
func (p *picture) write(face font.Face, at vg.Point, align vg.Length, ink ink, s string) {
	at.X -= align * face.Width(s)
	p.c.SetColor(ink)
	p.c.FillString(face, at, s)
}

// middle is the baseline that puts a line of plain text half above y.
func middle(y vg.Length) vg.Length { return y - 0.36*textSize }

func (p *picture) line(l draw.LineStyle, points ...vg.Point) { p.c.StrokeLines(l, points) }

// across is a level line over the whole panel.
func (p *picture) across(l draw.LineStyle, y vg.Length) {
	p.line(l, vg.Point{X: p.panel.Min.X, Y: y}, vg.Point{X: p.panel.Max.X, Y: y})
}
