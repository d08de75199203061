package commands

import (
	"cmp"
	"math"
	"slices"
	"time"

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
		r.Headline = d.in.Word("No heap is kept here. Start one with: heap start North Bay")
		r.lead(d.actionOn(startAction.Label, startAction.Line, heap.Heap{}))
		return r, nil
	}
	r.Headline = d.in.Say("%d heaps are kept here.", len(open))
	if len(open) == 1 {
		r.Headline = d.in.Word("1 heap is kept here.")
	}
	var lines []string
	for _, h := range open {
		s, err := d.state(h)
		if err != nil {
			return Reply{}, err
		}
		stage, _ := maturity.StageOf(s)
		lines = append(lines, d.listed(s, stage))
	}
	r.Body = []Block{{Lines: lines}}
	if n := len(all) - len(open); n > 0 {
		r.Body = append(r.Body, Block{Lines: []string{d.in.Say("%d finished.", n)}})
	}
	return d.leadOn(r, open)
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// sayAge says for how long a heap has been kept.
func (d *desk) sayAge(age time.Duration) string {
	days := age.Hours() / 24
	switch n := int(days); {
	case n < 1:
		return d.in.Word("less than a day")
	case n == 1:
		return d.in.Word("1 day")
	case n < 60:
		return d.in.Say("%d days", n)
	default:
		return d.in.Say("%d months", int(math.Round(days/30.44)))
	}
}

// listed is the line of a heap in the list of heaps.
func (d *desk) listed(s heap.State, stage maturity.Stage) string {
	name, at, age := s.Heap.Name, d.in.Word(string(stage)), d.sayAge(s.Age)
	reading, ok := s.LastReading()
	if !ok {
		return d.in.Say("%s: %s, %s old, no temperature yet", name, at, age)
	}
	return d.in.Say("%s: %s, %s old, %s %s", name, at, age, d.local.SayTemperature(reading.C), d.ago(reading.At))
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
	stage, why := maturity.StageIn(s, d.local.Style)
	headline := d.in.Say("%s is %s: %s", h.Name, d.in.Word(string(stage)), d.in.AfterColon(why))
	if !h.Finished.IsZero() {
		headline = d.in.Say("%s is finished, since %s.", h.Name, d.day(h.Finished))
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
		r.Body = append(r.Body, Block{Title: d.in.Word("Next"), Lines: []string{capital(titleIn(d.in, job.Title)) + ". " + job.Reason}})
	}
	if h.Finished.IsZero() {
		r.lead(d.visitAction(h))
	}
	r.lead(d.chartAction(h))
	return r, nil
}

func (d *desk) heapLines(s heap.State) []string {
	lines := []string{d.in.Say("%s. Started %s, %s ago.", capital(d.sayHeap(s.Heap)), d.day(d.call.Now.Add(-s.Age)), d.sayAge(s.Age))}
	if s.VolumeL > 0 {
		lines = append(lines, d.in.Say("Volume about %s, %s.", d.local.SayBulk(s.VolumeL), s.VolumeHow.Say(d.local)))
	}
	if reading, ok := s.LastReading(); ok {
		last, ago := d.sayTemp(heap.Temp{C: reading.C, DepthCm: reading.DepthCm, Spot: reading.Spot}), d.ago(reading.At)
		if reading.At.Before(s.RefilledAt) {
			lines = append(lines, d.in.Say("Last temperature %s, %s.", last, ago))
		} else {
			lines = append(lines, d.in.Say("Last temperature %s, %s; highest so far %s.", last, ago, d.local.SayTemperature(s.PeakC)))
		}
	}
	lines = append(lines, d.turnLine(s))
	if s.Squeeze != "" {
		lines = append(lines, d.in.Say("Squeeze test %s: %s.", d.ago(s.SqueezeAt), d.in.Word(squeezeWords[s.Squeeze])))
	}
	if in := d.topContent(s.Content); in != "" {
		lines = append(lines, d.in.Say("Put in: %s.", in))
	}
	return lines
}

func (d *desk) turnLine(s heap.State) string {
	switch last := s.LastTurn(); {
	case last.IsZero():
		return d.in.Word("Not turned yet.")
	case len(s.Turns) == 1:
		return d.in.Say("Turned 1 time, last %s.", d.ago(last))
	default:
		return d.in.Say("Turned %d times, last %s.", len(s.Turns), d.ago(last))
	}
}

// mostContent is how many materials a heap's content names. Own choice.
const mostContent = 4

// topContent lists the materials put in by name, the most first.
func (d *desk) topContent(content []heap.Added) string {
	litres := map[string]float64{}
	var order []string
	for _, c := range content {
		name := d.calledThen(c)
		if litres[name] == 0 {
			order = append(order, name)
		}
		litres[name] += c.VolumeL
	}
	slices.SortStableFunc(order, func(a, b string) int { return cmp.Compare(litres[b], litres[a]) })
	said := slices.Clone(order[:min(len(order), mostContent)])
	switch more := len(order) - mostContent; {
	case more == 1:
		said = append(said, d.in.Word("1 other"))
	case more > 1:
		said = append(said, d.in.Say("%d others", more))
	}
	return d.in.List(said, "and")
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
