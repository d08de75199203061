package commands

import (
	"slices"

	"heapside/calc/fault"
	"heapside/calc/process"
)

func (a *Assistant) outlookCommand() Command {
	return Command{
		Name: "outlook", Summary: "What temperature, moisture and ready date to expect; what turning would change",
		Options: []Option{
			{Name: "heap", Summary: "which heap; may be left out when there is one", Kind: HeapName, Words: true},
			{Name: "depth", Summary: "the depth that readings are meant for, e.g. 40 cm", Kind: Hint, Choices: picks("20 cm", "", "30 cm", "", "40 cm", "", "50 cm", "")},
		},
		Run: a.with((*desk).outlook),
	}
}

func (d *desk) outlook() (Reply, error) {
	h, err := d.heap("heap")
	if err != nil {
		return Reply{}, err
	}
	question := process.Question{Zone: d.zone}
	if said := d.arg("depth"); said != "" {
		if question.DepthCm, err = d.m.ParseLength(said); err != nil {
			return Reply{}, d.doubt("depth", err)
		}
	}
	v, err := d.follow(h, d.sky(h.Started))
	if e, ok := fault.As(err); ok {
		return Reply{}, withLeads(e, d.addAction(h))
	}
	if err != nil {
		return Reply{}, err
	}
	o, tally, err := d.lookAhead(v, question)
	if err != nil {
		return Reply{}, err
	}
	if question.DepthCm == 0 {
		// Kept so that the readings to come can score it.
		if err := d.store.SaveForecasts(d.ctx, d.call.Place, h.ID, o.Forecasts()...); err != nil {
			return Reply{}, err
		}
	}
	r := d.outlookReply(v, sized(o, v.state.VolumeL), tally)
	r.lead(d.chartAction(h))
	offer, err := d.firstReminder()
	r.lead(offer...)
	return r, err
}

// lookAhead asks a heap's model for an outlook with bands as wide as the
// garden's own scores ask for.
func (d *desk) lookAhead(v view, question process.Question) (process.Outlook, process.Tally, error) {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return process.Outlook{}, process.Tally{}, err
	}
	scores, err := d.scores(heaps, v.state)
	if err != nil {
		return process.Outlook{}, process.Tally{}, err
	}
	question.Widen = process.Widening(scores)
	o, err := v.model.outlook(question)
	return o, process.Count(scores), err
}

// sized is an outlook with the volume that the record says now: how high the heap
// stands, or what went in less the usual shrinking. The model says what becomes of
// it, as in what a heap gives; of today's volume it knows less than the record.
func sized(o process.Outlook, nowL float64) process.Outlook {
	if nowL <= 0 || o.Now.VolumeL.Mid <= 0 {
		return o
	}
	scale := func(b *process.Band, by float64) { b.Low, b.Mid, b.High = b.Low*by, b.Mid*by, b.High*by }
	by := nowL / o.Now.VolumeL.Mid
	scale(&o.Now.VolumeL, by)
	o.Days = slices.Clone(o.Days)
	for i := range o.Days {
		scale(&o.Days[i].VolumeL, by)
	}
	return o
}
