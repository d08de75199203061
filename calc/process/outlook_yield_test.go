package process

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

func TestReadyShareIsWhereTheMembersEndUp(t *testing.T) {
	track := learned(t, bay(), after(5))
	share, err := track.ReadyShare()
	require.NoError(t, err)
	assert.Less(t, share.High, 1.0)
	assert.Positive(t, share.Low)

	// The same members, walked until they are ready.
	a := track.ahead(track.now.some(readyMembers))
	begun := make([]float64, len(a.members))
	for i := range a.members {
		begun[i] = a.members[i].S.VolumeL(&a.members[i].P)
	}
	var ends []point
	for a.hour < track.now.hour+24*ReadyDays && len(ends) < len(begun) {
		a.run(stepTo(a.hour, 6))
		for i := range a.members {
			m := &a.members[i]
			if m.dry() {
				m.S.Wet(&m.P, m.S.WaterWanted(WaterTo), usualTempC)
			}
			if begun[i] > 0 && m.ready() {
				ends = append(ends, point{m.S.VolumeL(&m.P) / begun[i], 1})
				begun[i] = 0
			}
		}
	}
	require.Greater(t, len(ends), readyMembers/2)
	walked := band(ends)
	t.Logf("at once %.2f %.2f %.2f, walked %.2f %.2f %.2f", share.Low, share.Mid, share.High, walked.Low, walked.Mid, walked.High)
	assert.InEpsilon(t, walked.Mid, share.Mid, 0.1)
}

func TestLearnedShareIsThatOfADayBefore(t *testing.T) {
	track := learned(t, bay(), after(30))
	share, err := track.ReadyShare()
	require.NoError(t, err)
	snapshot, err := track.MarshalBinary()
	require.NoError(t, err)
	var kept Track
	require.NoError(t, kept.UnmarshalBinary(snapshot))
	was, at, ok := kept.LearnedShare()
	require.True(t, ok)
	assert.WithinDuration(t, after(30), at, 48*time.Hour)
	assert.InDelta(t, share.Mid, was.Mid, 0.03)
}

func TestReadyShareOfNothing(t *testing.T) {
	_, _, learned := new(Track).LearnedShare()
	assert.False(t, learned)
	_, err := new(Track).ReadyShare()
	f, ok := fault.As(err)
	require.True(t, ok)
	assert.Equal(t, fault.Missing, f.Code)
}
