package process

import (
	"sort"

	"heapside/calc/heap"
)

// gaugeBackH is how many hours the first reading of a rain gauge, and any after
// a longer pause, is taken to cover (own choice).
const gaugeBackH = 7 * 24

// gauge is the rain measured in the garden: spans that do not overlap, oldest
// first, each with the rain in mm of its hours.
type gauge []span

type span struct {
	from int64
	mm   []float64
}

func (s span) to() int64 { return s.from + int64(len(s.mm)) }

// readGauge spreads each reading over the hours it covers as the weather had it
// there, or evenly where the weather knew of no rain.
func readGauge(entries []heap.Entry, weather func(hour int64) (mm float64)) gauge {
	var g gauge
	last := int64(0)
	for _, e := range entries {
		r, ok := e.Payload.(heap.Rain)
		if !ok {
			continue
		}
		to := hourOf(e.At)
		from := max(last, to-gaugeBackH)
		last = to
		if from < to {
			g = append(g, spreadRain(from, to, r.Mm, weather))
		}
	}
	return g
}

func spreadRain(from, to int64, mm float64, weather func(int64) float64) span {
	s := span{from: from, mm: make([]float64, to-from)}
	sum := 0.0
	for i := range s.mm {
		s.mm[i] = weather(from + int64(i))
		sum += s.mm[i]
	}
	for i := range s.mm {
		if sum > 0 {
			s.mm[i] *= mm / sum
		} else {
			s.mm[i] = mm / float64(len(s.mm))
		}
	}
	return s
}

// at is the measured rain of an hour in mm; false where nobody measured.
func (g gauge) at(hour int64) (mm float64, ok bool) {
	i := sort.Search(len(g), func(i int) bool { return g[i].to() > hour })
	if i < len(g) && g[i].from <= hour {
		return g[i].mm[hour-g[i].from], true
	}
	return 0, false
}
