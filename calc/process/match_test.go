package process

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"heapside/calc/heap"
)

func TestScoreAllMeetsTheNearestReading(t *testing.T) {
	made := time.Date(2026, 6, 14, 18, 0, 0, 0, time.UTC)
	f := Forecast{At: made, Ahead: 24 * time.Hour, Band: Band{Low: 40, Mid: 50, High: 60}, LastC: 44}
	at := func(hours int, c float64) heap.Reading {
		return heap.Reading{At: made.Add(time.Duration(hours) * time.Hour), C: c}
	}
	for _, tt := range []struct {
		name     string
		readings []heap.Reading
		want     []Score
	}{
		{"none", nil, nil},
		{"one before it was made says nothing", []heap.Reading{at(-1, 50), at(0, 50)}, nil},
		{"one too far off says nothing", []heap.Reading{at(37, 50), at(11, 50)}, nil},
		{"the nearest counts", []heap.Reading{at(13, 70), at(25, 53), at(30, 20)}, []Score{{Ahead: 24 * time.Hour, In80: true, AbsErr: 3, PersistErr: 9, Stretch: 0.3}}},
		{"outside the band", []heap.Reading{at(24, 65)}, []Score{{Ahead: 24 * time.Hour, AbsErr: 15, PersistErr: 21, Stretch: 1.5}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, ScoreAll([]Forecast{f}, tt.readings))
		})
	}
}
