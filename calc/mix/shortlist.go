package mix

import (
	"math"
	"slices"
)

// How many candidates are tried three at a time: to meet the aim, and to find
// the nearest miss.
const (
	tripleLength = 64
	missLength   = 16
)

// shortlist is at most length of the candidates given by number: for each
// inequality, and then for each two at once, those that help most with all
// their stock and those that help most for their effort. A blend that three
// materials mend and no two is short of two or three things; the materials that
// mend them best are here.
func (s *solver) shortlist(from []int, length int) []int {
	if len(from) <= length {
		return from
	}
	cols := s.cols[len(tensions)-1]
	var largest [rowCount]float64
	for _, i := range from {
		for r, v := range cols[i].rows {
			largest[r] = max(largest[r], math.Abs(v))
		}
	}
	var short []int
	pick := func(r, q int, worth func(i int) float64) {
		top, most := -1, 0.0
		for _, i := range from {
			help := (cols[i].rows[r]/largest[r] + cols[i].rows[q]/largest[q]) * worth(i)
			if help > most && !slices.Contains(short, i) {
				top, most = i, help
			}
		}
		if top >= 0 && len(short) < length {
			short = append(short, top)
		}
	}
	stock := func(i int) float64 { return s.cands[i].capL }
	ease := func(i int) float64 { return 1 / (cols[i].effort * s.cands[i].unhand) }
	base := s.bases[len(tensions)-1].rows
	for apart := range rowCount {
		for r := range rowCount - apart {
			if q := r + apart; base[r] < 0 || base[q] < 0 {
				pick(r, q, stock)
				pick(r, q, ease)
			}
		}
	}
	slices.Sort(short)
	return short
}

func sequence(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}
