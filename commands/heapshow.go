package commands

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"heapside/calc/heap"
	"heapside/calc/maturity"
)

func (d *desk) heapList() (Reply, error) {
	all, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return Reply{}, err
	}
	open := kept(all)
	r := Reply{Values: map[string]Value{"heaps": {float64(len(open)), "1"}}}
	if len(open) == 0 {
		r.Headline = "No heap is kept here. Start one with: heap start North Bay"
		return r, nil
	}
	r.Headline = fmt.Sprintf("%d %s kept here.", len(open), plural(len(open), "heap is", "heaps are"))
	var lines []string
	for _, h := range open {
		s, err := d.state(h)
		if err != nil {
			return Reply{}, err
		}
		stage, _ := maturity.StageOf(s)
		lines = append(lines, fmt.Sprintf("%s: %s, %s old%s", h.Name, stage, sayDays(s.Age.Hours()/24), d.lastTempText(s)))
	}
	r.Body = []Block{{Lines: lines}}
	if n := len(all) - len(open); n > 0 {
		r.Body = append(r.Body, Block{Lines: []string{fmt.Sprintf("%d finished.", n)}})
	}
	return r, nil
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

func sayDays(days float64) string {
	switch n := int(days); {
	case n < 1:
		return "less than a day"
	case n == 1:
		return "1 day"
	case n < 60:
		return fmt.Sprintf("%d days", n)
	default:
		return fmt.Sprintf("%d months", int(math.Round(days/30.44)))
	}
}

func (d *desk) lastTempText(s heap.State) string {
	reading, ok := s.LastReading()
	if !ok {
		return ", no temperature yet"
	}
	return ", " + d.m.SayTemperature(reading.C) + " " + d.ago(reading.At)
}

func (d *desk) heapShow() (Reply, error) {
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	s, err := d.state(h)
	if err != nil {
		return Reply{}, err
	}
	stage, why := maturity.StageOf(s)
	headline := fmt.Sprintf("%s is %s: %s", h.Name, stage, lower(why))
	if !h.Finished.IsZero() {
		headline = h.Name + " is finished, since " + d.day(h.Finished) + "."
	}
	r := Reply{
		Headline: headline,
		Body:     []Block{{Lines: d.heapLines(s)}},
		Values:   stateValues(s, stage),
	}
	if s.VolumeL > 0 {
		r.Basis = []string{"volume: " + heap.ShrinkSource}
	}
	if job, ok := d.pressing(s); ok && h.Finished.IsZero() {
		r.Body = append(r.Body, Block{Title: "Next", Lines: []string{job.Title + ". " + job.Reason}})
	}
	if h.Finished.IsZero() {
		r.lead(visitAction(h))
	}
	r.lead(chartAction(h))
	return r, nil
}

func (d *desk) heapLines(s heap.State) []string {
	lines := []string{capital(d.sayHeap(s.Heap)) + ". Started " + d.day(d.call.Now.Add(-s.Age)) + ", " + sayDays(s.Age.Hours()/24) + " ago."}
	if s.VolumeL > 0 {
		lines = append(lines, "Volume about "+d.m.SayBulk(s.VolumeL)+", "+s.VolumeHow+".")
	}
	if reading, ok := s.LastReading(); ok {
		line := "Last temperature " + d.sayTemp(heap.Temp{C: reading.C, DepthCm: reading.DepthCm, Spot: reading.Spot}) + ", " + d.ago(reading.At)
		if !reading.At.Before(s.RefilledAt) {
			line += "; highest so far " + d.m.SayTemperature(s.PeakC)
		}
		lines = append(lines, line+".")
	}
	lines = append(lines, d.turnLine(s))
	if s.Squeeze != "" {
		lines = append(lines, "Squeeze test "+d.ago(s.SqueezeAt)+": "+squeezeWords[s.Squeeze]+".")
	}
	if in := topContent(s.Content); in != "" {
		lines = append(lines, "Put in: "+in+".")
	}
	return lines
}

func (d *desk) turnLine(s heap.State) string {
	if last := s.LastTurn(); !last.IsZero() {
		return fmt.Sprintf("Turned %d %s, last %s.", len(s.Turns), plural(len(s.Turns), "time", "times"), d.ago(last))
	}
	return "Not turned yet."
}

// topContent lists the materials put in by name, the most first.
func topContent(content []heap.Added) string {
	litres := map[string]float64{}
	var order []string
	for _, c := range content {
		if litres[c.Name] == 0 {
			order = append(order, c.Name)
		}
		litres[c.Name] += c.VolumeL
	}
	slices.SortStableFunc(order, func(a, b string) int { return cmp.Compare(litres[b], litres[a]) })
	if len(order) > 4 {
		order = append(order[:4:4], fmt.Sprintf("%d %s", len(order)-4, plural(len(order)-4, "other", "others")))
	}
	return list(order, "and")
}

func stateValues(s heap.State, stage maturity.Stage) map[string]Value {
	values := map[string]Value{
		"stage":    {string(stage), ""},
		"age_days": {round(s.Age.Hours() / 24), "d"},
		"volume":   {round(s.VolumeL), "l"},
	}
	if reading, ok := s.LastReading(); ok {
		values["last_temp"] = Value{round(reading.C), "Cel"}
	}
	if last := s.LastTurn(); !last.IsZero() {
		values["days_since_turn"] = Value{round(s.Now.Sub(last).Hours() / 24), "d"}
	}
	return values
}

// round keeps two decimals: more would pretend to a precision nobody logged.
func round(v float64) float64 { return math.Round(v*100) / 100 }
