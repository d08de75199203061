package scenario

import (
	"fmt"
	"strconv"
	"strings"

	"heapside/calc/heap"
)

// Day is the weather of one day of a story: how many days from its own it lies
// (negative: before it), the rain, and the mean and the night in Celsius.
type Day struct {
	In                    int
	RainMm, MeanC, NightC float64
}

// Model is what the heap model is said to find: how probable it is that the
// middle is too dry, with the litres it wants, or short of air.
type Model struct{ Dry, WaterL, Airless float64 }

// What a story's weather is where it does not say, and the days it is told of.
const (
	plainMeanC, plainNightC = 15, 10
	firstDay, lastDay       = -7, 6
)

// told is the weather of the days around the story's.
func told() []Day {
	var days []Day
	for n := firstDay; n <= lastDay; n++ {
		days = append(days, Day{In: n, MeanC: plainMeanC, NightC: plainNightC})
	}
	return days
}

// ahead reads "tomorrow" and "in 2 days" as days from the story's own.
func ahead(words string) (days int, ok bool) {
	if words == "tomorrow" {
		return 1, true
	}
	_, err := fmt.Sscanf(words, "in %d days", &days)
	return days, err == nil
}

// sky takes in the weather of one day: "rain 12", "night -4".
func (s *Story) sky(in int, fields []string) error {
	w := words{fields: fields, err: new(error)}
	name, value := w.word(0), w.number(1)
	if in < firstDay || in > lastDay {
		return fmt.Errorf("weather is told from %d days before to %d after", -firstDay, lastDay)
	}
	if s.Days == nil {
		s.Days = told()
	}
	d := &s.Days[in-firstDay]
	switch name {
	case "rain":
		d.RainMm = value
	case "night":
		d.MeanC, d.NightC = value+plainMeanC-plainNightC, value
	default:
		return fmt.Errorf("no such weather")
	}
	return *w.err
}

// warm gives all days one mean.
func (s *Story) warm(value string) error {
	mean, err := strconv.ParseFloat(value, 64)
	s.Days = told()
	for i := range s.Days {
		s.Days[i].MeanC, s.Days[i].NightC = mean, mean+plainNightC-plainMeanC
	}
	return err
}

// modelled reads "dry 0.7 30 litres" and "airless 0.8".
func (s *Story) modelled(value string) error {
	w := words{fields: strings.Fields(value), err: new(error)}
	switch w.word(0) {
	case "dry":
		s.Model = &Model{Dry: w.number(1), WaterL: w.number(2)}
	case "airless":
		s.Model = &Model{Airless: w.number(1)}
	default:
		return fmt.Errorf("the model says dry or airless")
	}
	return *w.err
}

// onHand reads "leaves-dry 120 litres".
func (s *Story) onHand(value string) error {
	w := words{fields: strings.Fields(value), err: new(error)}
	s.Stock = append(s.Stock, heap.Stock{Material: w.word(0), VolumeL: w.number(1), At: s.Now})
	return *w.err
}
