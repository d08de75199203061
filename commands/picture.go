package commands

import (
	"time"

	"heapside/calc/fault"
	"heapside/calc/heap"
	"heapside/calc/measure"
	"heapside/calc/process"
	"heapside/commands/chart"
)

// hygieneC is the temperature that the published hygiene rules start from:
// 55 C, 40 CFR 503 App. B and 40 CFR 257 App. II.
const hygieneC = 55

// pictureDays is how far back a chart reaches unless told. Own choice: more
// days than that cannot be told apart on a phone.
const pictureDays = 60

// picture draws a heap's course and outlook; false when there is nothing to
// draw. A heap without a model, for nothing is on record as put in, is drawn
// from its readings alone.
func (d *desk) picture(h heap.Heap, since time.Time) (File, bool, error) {
	if since.IsZero() {
		since = d.call.Now.AddDate(0, 0, -pictureDays)
	}
	if since.Before(h.Started) {
		since = h.Started
	}
	sky := d.sky(since)
	data := chart.Data{Heap: h.Name, Zone: d.zone, Now: d.call.Now, Fahrenheit: d.m.Fahrenheit, Inches: d.m.System == measure.US, ThresholdC: hygieneC}
	s, err := d.state(h)
	if err != nil {
		return File{}, false, err
	}
	drawRecord(&data, s, since)
	drawSky(&data, sky)
	if err := d.drawModel(&data, h, sky, since); err != nil {
		return File{}, false, err
	}
	png, err := chart.PNG(data)
	if _, forPeople := fault.As(err); forPeople {
		return File{}, false, nil
	}
	if err != nil {
		return File{}, false, err
	}
	return File{Name: "chart.png", ContentType: "image/png", Alt: chart.Alt(data), Text: chart.Text(data, textWidth), Data: png}, true, nil
}

// textWidth is how wide the chart in characters is: an 80 column terminal
// less the indent.
const textWidth = 76

// drawRecord puts what people logged on the chart.
func drawRecord(data *chart.Data, s heap.State, since time.Time) {
	for _, e := range s.Entries {
		if e.At.Before(since) {
			continue
		}
		switch p := e.Payload.(type) {
		case heap.Temp:
			data.Readings = append(data.Readings, chart.Reading{At: e.At, C: p.C, Air: p.Spot == heap.SpotAir})
		case heap.Turned:
			data.Marks = append(data.Marks, chart.Mark{At: e.At, Kind: chart.Turned})
		case heap.Watered:
			data.Marks = append(data.Marks, chart.Mark{At: e.At, Kind: chart.Watered})
		case heap.Added:
			data.Marks = append(data.Marks, chart.Mark{At: e.At, Kind: chart.Added})
		case heap.Covered:
			data.Marks = append(data.Marks, chart.Mark{At: e.At, Kind: chart.Covered})
		case heap.Rain:
			data.Rain = append(data.Rain, chart.RainBar{Day: e.At, Mm: p.Mm})
		}
	}
}

// drawSky puts the weather on the chart. Rain that somebody measured stays.
func drawSky(data *chart.Data, sky Sky) {
	gauged := map[string]bool{}
	for _, bar := range data.Rain {
		gauged[bar.Day.In(data.Zone).Format(time.DateOnly)] = true
	}
	for _, day := range sky.Days {
		if day.RainMm >= 0 && !gauged[day.Start.In(data.Zone).Format(time.DateOnly)] {
			data.Rain = append(data.Rain, chart.RainBar{Day: day.Start, Mm: day.RainMm, Forecast: day.Ahead})
		}
		if day.Told {
			data.Air = append(data.Air, chart.AirPoint{At: day.Start.Add(12 * time.Hour), C: day.MeanC})
		}
	}
}

// drawModel puts the estimate and the outlook on the chart, where there is a model.
func (d *desk) drawModel(data *chart.Data, h heap.Heap, sky Sky, since time.Time) error {
	v, err := d.follow(h, sky)
	if _, forPeople := fault.As(err); forPeople {
		return nil
	}
	if err != nil {
		return err
	}
	o, _, err := d.lookAhead(v, process.Question{Zone: d.zone})
	if err != nil {
		return err
	}
	for _, was := range v.model.past {
		if !was.At.Before(since) {
			data.Band = append(data.Band, chart.BandPoint{At: was.At, Low: was.Reading.Low, Mid: was.Reading.Mid, High: was.Reading.High})
		}
	}
	for i, band := range o.Hours {
		if i%6 == 0 {
			data.Band = append(data.Band, chart.BandPoint{At: o.At.Add(time.Duration(i) * time.Hour), Low: band.Low, Mid: band.Mid, High: band.High, Forecast: i > 0})
		}
	}
	return nil
}
