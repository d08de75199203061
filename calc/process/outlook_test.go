package process

import (
	"testing"

	"github.com/stretchr/testify/require"
)

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
