package chart

import (
	"strings"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Sizes of letters in pixels of the full picture: at half size, as a phone
// shows it, ten pixels are still read. Own choice.
const (
	textSize  = 20
	titleSize = 26
)

// faces are the letters of a chart, embedded in the program.
type faces struct{ plain, title font.Face }

// drawable puts a box where a name has a letter that the title's face lacks.
func (f faces) drawable(name string) string {
	var buf sfnt.Buffer
	return strings.Map(func(r rune) rune {
		if glyph, err := f.title.Face.GlyphIndex(&buf, r); err != nil || glyph == 0 {
			return '□'
		}
		return r
	}, name)
}

var letters = sync.OnceValues(func() (faces, error) {
	plain, err := opentype.Parse(liberationsansregular.TTF)
	if err != nil {
		return faces{}, err
	}
	bold, err := opentype.Parse(liberationsansbold.TTF)
	if err != nil {
		return faces{}, err
	}
	face := func(f *opentype.Font, size vg.Length) font.Face {
		return font.Face{Font: font.Font{Size: size}, Face: f}
	}
	return faces{plain: face(plain, textSize), title: face(bold, titleSize)}, nil
})
