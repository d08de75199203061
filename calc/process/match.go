package process

import (
	"time"

	"heapside/calc/heap"
)

// closeBy is how far a reading may lie from the time a forecast spoke of and
// still count as its reading (own choice): the core moves a few degrees a day.
const closeBy = 12 * time.Hour

// ScoreAll holds forecasts against the readings that came: each against the one
// nearest to its time, taken after it was made. Forecasts that no reading met
// give no score.
func ScoreAll(forecasts []Forecast, readings []heap.Reading) []Score {
	var scores []Score
	for _, f := range forecasts {
		at := f.At.Add(f.Ahead)
		nearest, met := heap.Reading{}, false
		for _, r := range readings {
			off := r.At.Sub(at).Abs()
			if !r.At.After(f.At) || off > closeBy || met && off >= nearest.At.Sub(at).Abs() {
				continue
			}
			nearest, met = r, true
		}
		if met {
			scores = append(scores, f.Score(nearest.C))
		}
	}
	return scores
}
