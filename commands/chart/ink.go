package chart

import (
	"image/color"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ink is a colour of the chart. They differ in lightness as well as in hue, so
// that they are told apart in grey print and by every eye. Own choice.
type ink = color.NRGBA

func rgb(hex uint32) ink { return ink{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff} }

var (
	black    = rgb(0x1c1c1c) // readings and text
	grey     = rgb(0x555555) // labels
	pale     = rgb(0xdddddd) // grid
	white    = rgb(0xffffff)
	veil     = ink{R: 0xff, G: 0xff, B: 0xff, A: 0xc8} // behind words inside the panel
	rust     = rgb(0xb44a00)                           // the middle of the band
	clay     = rgb(0xf0b478)                           // the estimate
	sand     = rgb(0xf8dfbe)                           // the outlook
	blue     = rgb(0x1f6fb4)                           // rain and water
	paleBlue = rgb(0xc4ddf0)                           // rain to come
	slate    = rgb(0x3c7fa8)                           // air
	plum     = rgb(0x7a1f5c)                           // threshold
	green    = rgb(0x2e7d32)                           // additions
)

var (
	gridLine      = draw.LineStyle{Color: pale, Width: 1.5}
	axisLine      = draw.LineStyle{Color: grey, Width: 2}
	midLine       = draw.LineStyle{Color: rust, Width: 4}
	outlookLine   = draw.LineStyle{Color: rust, Width: 4, Dashes: []vg.Length{10, 7}}
	airLine       = draw.LineStyle{Color: slate, Width: 2}
	nowLine       = draw.LineStyle{Color: black, Width: 2}
	turnLine      = draw.LineStyle{Color: grey, Width: 1.5, Dashes: []vg.Length{2, 5}}
	thresholdLine = draw.LineStyle{Color: plum, Width: 3, Dashes: []vg.Length{12, 6}}
	rainLine      = draw.LineStyle{Color: blue, Width: 2}
)
