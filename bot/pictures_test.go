package main

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// picture is an image of the page: what it shows, and that in words.
type picture struct {
	alt  string
	data []byte
}

// pictures are the README's images by file name, each made of what the program
// answers on the demo.
var pictures = map[string]func(t *testing.T) picture{
	"chart.png": func(t *testing.T) picture {
		o, call := demoAt(t, demoEvening)
		r := o.assistant.Line(t.Context(), call, "history North Bay")
		require.NotEmpty(t, r.Files)
		return picture{r.Files[0].Alt, r.Files[0].Data}
	},
	"chat.svg": func(t *testing.T) picture {
		return screenshot(conversation(t, "the kitchen bin has gone slimy\n1\nI turned north bay this morning\n"))
	},
	"history.svg": func(t *testing.T) picture { return screenshot(conversation(t, "history north bay\n")) },
}

// maxPictures is what all of them may weigh together: own choice.
const maxPictures = 300_000

// TestReadmePictures draws the images of the page anew and compares them and
// the words that stand for them. Another release of the compressor may write the
// same pixels in other bytes.
func TestReadmePictures(t *testing.T) {
	if underRace {
		t.Skip("the plain run holds the page to its word")
	}
	if runtime.GOARCH != "amd64" {
		t.Skip("the pictures were drawn on amd64")
	}
	const folder = "testdata/pictures"
	entries, err := os.ReadDir(filepath.Join(root, folder))
	require.NoError(t, err)
	weight := 0
	for _, e := range entries {
		assert.Contains(t, pictures, e.Name(), "nothing draws this picture")
	}
	for name, draw := range pictures {
		p := draw(t)
		weight += len(p.data)
		file := filepath.Join(root, folder, name)
		if *rewrite {
			require.NoError(t, os.WriteFile(file, p.data, 0o644))
		}
		want, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.True(t, sameImage(t, name, want, p.data), "%s changed: run with -rewrite and look at it", name)
		holdAlt(t, path.Join(folder, name), p.alt)
	}
	assert.Less(t, weight, maxPictures)
}

func sameImage(t *testing.T, name string, a, b []byte) bool {
	if path.Ext(name) != ".png" {
		return bytes.Equal(a, b)
	}
	return bytes.Equal(pixels(t, a), pixels(t, b))
}

func pixels(t *testing.T, data []byte) []byte {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Bounds(), img, img.Bounds().Min, draw.Src)
	return out.Pix
}

// holdAlt compares the words that stand for an image on the page, or writes them.
func holdAlt(t *testing.T, file, alt string) {
	t.Helper()
	page, err := os.ReadFile(readme)
	require.NoError(t, err)
	link := regexp.MustCompile(`!\[[^\]]*\]\(` + regexp.QuoteMeta(file) + `\)`)
	want := "![" + strings.NewReplacer("[", "(", "]", ")").Replace(alt) + "](" + file + ")"
	require.Len(t, link.FindAll(page, -1), 1, "the README shows %s once", file)
	if *rewrite {
		page = link.ReplaceAllLiteral(page, []byte(want))
		require.NoError(t, os.WriteFile(readme, page, 0o644))
	}
	assert.Contains(t, string(page), want)
}

// Measures of a screenshot in pixels. Own choice: letters as most terminals
// have them, whose width is 0.6 of their size.
const (
	letter     = 14
	advance    = 8.4
	leading    = 19
	edge       = 14
	screenCols = 80
)

// The inks of a screenshot, dark on its light ground.
const (
	plainInk  = `fill="#1f2328"`
	typedInk  = `fill="#116329" font-weight="bold"`
	answerInk = plainInk + ` font-weight="bold"`
	buttonInk = `fill="#0550ae"`
)

var (
	button   = regexp.MustCompile(`^  \[\d+\] `)
	finished = regexp.MustCompile(`[.:?!]$`)
)

// screenshot draws a conversation as a terminal shows it, on a light ground, and
// says in words what was typed and the first line of each answer. Every line is
// stretched to its columns, whatever letters the reader's machine has.
func screenshot(said string) picture {
	lines := strings.Split(strings.TrimSpace(said), "\n")
	width, height := int(screenCols*advance)+2*edge, len(lines)*leading+2*edge
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" viewBox="0 0 %[1]d %[2]d" font-family="ui-monospace, Menlo, Consolas, 'DejaVu Sans Mono', monospace" font-size="%d" xml:space="preserve">`+"\n", width, height, letter)
	fmt.Fprintf(&b, `<rect x="0.5" y="0.5" width="%d" height="%d" rx="8" fill="#fcfbf7" stroke="#cfcbbf"/>`+"\n", width-1, height-1)
	alt, more := "The local chat.", false // more of an answer's first sentence follows
	for i, line := range lines {
		text := strings.TrimLeft(line, " ")
		ink, indent := plainInk, len(line)-len(text)
		typed, isTyped := strings.CutPrefix(line, "millrace-lane> ")
		switch {
		case text == "":
			continue
		case isTyped:
			alt += " Typed: " + typed + "."
			ink = typedInk
		case more, indent == 0:
			if !more {
				alt += " Answer:"
			}
			alt += " " + text
			ink, more = answerInk, !finished.MatchString(text)
		case button.MatchString(line):
			ink = buttonInk
		}
		columns := utf8.RuneCountInString(text)
		fmt.Fprintf(&b, `<text x="%.1f" y="%d" textLength="%.1f" lengthAdjust="spacingAndGlyphs" %s>`,
			edge+float64(indent)*advance, edge+i*leading+letter, float64(columns)*advance, ink)
		_ = xml.EscapeText(&b, []byte(text)) // a buffer takes everything
		b.WriteString("</text>\n")
	}
	b.WriteString("</svg>\n")
	return picture{alt, b.Bytes()}
}
