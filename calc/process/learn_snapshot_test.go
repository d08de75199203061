package process

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSnapshotsThatAreNone(t *testing.T) {
	track := learned(t, bay(), after(12))
	good, err := track.MarshalBinary()
	require.NoError(t, err)
	assert.Less(t, len(good), 64<<10)
	changed := func(at int) []byte {
		b := append([]byte(nil), good...)
		b[at] ^= 0x40
		return b
	}
	for name, data := range map[string][]byte{
		"nothing": nil, "one byte": {1}, "cut off": good[:len(good)-1], "another version": changed(0),
		"a damaged number": changed(2000), "a damaged end": changed(len(good) - 1),
	} {
		was := *track
		assert.ErrorIs(t, track.UnmarshalBinary(data), errSnapshot, name)
		assert.Equal(t, was, *track, name)
	}
	assert.NoError(t, track.UnmarshalBinary(good))
}

func TestYoungHeapsHaveASmallSnapshot(t *testing.T) {
	track := learned(t, bay(), after(1))
	data, err := track.MarshalBinary()
	require.NoError(t, err)
	assert.Less(t, len(data), 64)
	var back Track
	require.NoError(t, back.UnmarshalBinary(data))
	assert.False(t, back.Knows(bay(), after(1)))
	require.NoError(t, back.Advance(bay(), after(1)))
	assert.Equal(t, track.now, back.now)
}

func FuzzSnapshot(f *testing.F) {
	track, err := learn(bay(), after(6))
	require.NoError(f, err)
	good, err := track.MarshalBinary()
	require.NoError(f, err)
	f.Add(good)
	f.Add(good[:100])
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		var got Track
		if got.UnmarshalBinary(data) != nil {
			return
		}
		again, err := got.MarshalBinary()
		require.NoError(t, err)
		assert.Equal(t, data, again)
	})
}
