package chart

import (
	"bytes"
	"flag"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func goldenFile(name, ext string) string {
	return filepath.Join("testdata", strings.NewReplacer(" ", "_", ",", "").Replace(name)+ext)
}

// golden returns what a golden file holds, after writing it when asked to.
func golden(t *testing.T, file string, got []byte) []byte {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(file, got, 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	return want
}

func pixels(t testing.TB, data []byte) *image.RGBA {
	t.Helper()
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Bounds(), img, img.Bounds().Min, draw.Src)
	return out
}

// Pixels are compared, not files: another release of the compressor may write
// the same picture in other bytes. Other processors round otherwise.
func TestPictureIsAsItWasSeen(t *testing.T) {
	if runtime.GOARCH != "amd64" {
		t.Skip("the golden pictures were drawn on amd64")
	}
	for _, name := range []string{"six weeks", "american units", "one reading", "winter, no band"} {
		t.Run(name, func(t *testing.T) {
			got, err := PNG(gardens(t)[name])
			require.NoError(t, err)
			want := pixels(t, golden(t, goldenFile(name, ".png"), got))
			assert.True(t, bytes.Equal(want.Pix, pixels(t, got).Pix), "the picture changed: look at it, then run with -update")
		})
	}
}

func TestWordsAndTextAreAsTheyWereRead(t *testing.T) {
	for name, d := range gardens(t) {
		t.Run(name, func(t *testing.T) {
			got := Alt(d) + "\n\n" + Text(d, 76) + "\n\n" + Text(d, 40) + "\n"
			assert.Equal(t, string(golden(t, goldenFile(name, ".txt"), []byte(got))), got)
		})
	}
}

func TestSameDataSameBytes(t *testing.T) {
	d := northBay(t)
	first, err := PNG(d)
	require.NoError(t, err)
	var wg sync.WaitGroup
	for range 4 {
		wg.Go(func() {
			again, err := PNG(d)
			assert.NoError(t, err)
			assert.True(t, bytes.Equal(first, again))
		})
	}
	wg.Wait()
}
