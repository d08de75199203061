package process

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestOutlookShow(t *testing.T) {
	for _, days := range []float64{2.5, 5, 10, 30, 60} {
		track, err := Learn(bay(), after(days))
		require.NoError(t, err)
		o, err := track.Outlook(Question{})
		require.NoError(t, err)
		t.Logf("day %g now %+v", days, o.Now)
		for _, d := range o.Days {
			t.Logf("  %s %.0f %.2f %.0f dry %.2f", d.At.Format("Jan 2 15h"), d.Reading, d.Moisture, d.VolumeL, d.Dry)
		}
		t.Logf("  ready %v", o.Ready)
		t.Logf("  cared %v", o.Cared)
		t.Logf("  turning %+v", o.Turning)
	}
}

func BenchmarkAdvanceDay(b *testing.B) {
	rec := bay()
	track, err := Learn(rec, after(89))
	require.NoError(b, err)
	snapshot, err := track.MarshalBinary()
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		var t Track
		if err := t.UnmarshalBinary(snapshot); err != nil {
			b.Fatal(err)
		}
		if err := t.Advance(rec, after(90)); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOutlook is at day 5, when the heap is hot and all is busy.
func BenchmarkOutlook(b *testing.B) {
	track, err := Learn(bay(), after(5))
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := track.Outlook(Question{}); err != nil {
			b.Fatal(err)
		}
	}
}
