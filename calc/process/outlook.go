package process

import (
	"time"

	"heapside/calc/fault"
)

// How far an Outlook looks.
const (
	OutlookDays     = 14
	TurnHorizonDays = 21  // days over which turn days are compared
	ReadyDays       = 300 // after which a heap counts as not getting ready
)

// Question is what is asked of a Track.
type Question struct {
	Zone    *time.Location // of the group, for noon; nil: UTC
	DepthCm float64        // at which readings are meant; 0: as this heap was last read
	Widen   float64        // by which bands are stretched, from Widening; 0 counts as 1
}

// Outlook is what a heap will probably do when it is left alone. Bands are
// quantiles over the members: they need not be even, and with a heap on the edge
// of heating they can be wide on one side only.
type Outlook struct {
	At      time.Time     // the full hour it starts from
	Hours   []Band        // the reading at At and each full hour after, 14 days
	Days    []Day         // at noon in the group's zone
	Now     Condition     // at At
	Ready   Ready         // left alone
	Cared   Ready         // turned on the best day, and watered whenever its core is dry
	Turning Turning       // what turning would change
	Unknown float64       // share (0 to 1) of the 14 days whose weather nobody has told
	LastC   float64       // the last reading on record, NaN without one
	Age     time.Duration // since the first addition
}

// Day is what to expect at noon.
type Day struct {
	At       time.Time
	Reading  Band // Celsius
	Moisture Band // wet basis of the whole heap, share
	VolumeL  Band
	Dry      float64 // share of members whose core is below 48 % moisture
}

// Condition is how the heap is now.
type Condition struct {
	Reading, Moisture, CoreMoisture, VolumeL Band
	Dry                                      float64 // probability that the core is below 48 % moisture
	WaterL                                   Band    // litres to 58 %
	WantsWater                               bool    // Dry is above a half
	Airless                                  float64 // probability that the core has less than 5 % oxygen
	Phase                                    Phase
	PhaseShare                               float64 // share of members in that phase
	HotShare                                 float64 // probability that the core is at 55 C or above
	Lost                                     Band    // share of the degradable solids that is gone
	Respiration                              Band    // at 37 C, g O2 per kg dry mass and hour
}

// The moistures that watering goes by, wet basis.
const (
	DryBelow   = 0.48 // own choice, just under the usual 50-60 %
	WaterTo    = 0.58 // own choice, inside the usual 50-60 %
	airlessO2  = 0.05 // mole fraction; 5 % is common practice, no source
	hotCoreC   = 55.0 // the usual threshold of hygiene rules
	heatedC    = 45.0 // from which a heap counts as hot, as calc/maturity has it
	curingDays = 28   // own choice
)

// Phase is a stage of a heap.
type Phase string

// The phases, in order.
const (
	PhaseFilling Phase = "filling" // has not been hot
	PhaseHot     Phase = "hot"
	PhaseCooling Phase = "cooling"
	PhaseCuring  Phase = "curing" // below 40 C for 28 days
	PhaseReady   Phase = "ready"
)

var phases = []Phase{PhaseFilling, PhaseHot, PhaseCooling, PhaseCuring, PhaseReady}

func (m *member) phase() Phase {
	switch {
	case m.ready():
		return PhaseReady
	case m.S.Core.T >= heatedC:
		return PhaseHot
	case m.PeakC < heatedC && m.SinceH < curingDays*24:
		return PhaseFilling
	case m.SinceH < curingDays*24:
		return PhaseCooling
	}
	return PhaseCuring
}

// The rule of readiness (own choice, after published limits on respiration): a
// respiration limit alone is not enough, since dry leaves pass it raw.
const (
	readyLoss        = 0.65 // of the degradable solids
	readyRespiration = 0.4  // g O2 per kg dry mass and hour at 37 C
)

func (m *member) ready() bool {
	return m.SinceH >= curingDays*24 && m.S.Loss() >= readyLoss && m.S.RespirationIndex(&m.P) < readyRespiration
}

// Outlook looks 14 days ahead from now, further for when the heap is ready. It
// fails with fault.Missing on a track that has not learned.
func (t *Track) Outlook(q Question) (Outlook, error) {
	if t.story == nil || t.now.members[0].S.Empty() {
		return Outlook{}, fault.New(fault.Missing, "Nothing is known to be in this heap; log what went in.")
	}
	q = t.full(q)
	o := Outlook{
		At: moment(t.now.hour), LastC: t.settings.lastC,
		Age: time.Duration(t.now.hour-t.story.start) * time.Hour,
		Now: t.now.condition(q),
	}
	t.fortnight(q, &o)
	o.Turning = t.compareTurns()
	o.Turning.Worth = o.Turning.Worth && o.Now.Phase != PhaseReady
	o.Ready = t.whenReady(care{turnOn: never})
	o.Cared = t.whenReady(care{turnOn: o.Turning.day(), water: true})
	return o, nil
}

// full is a question with what it leaves open.
func (t *Track) full(q Question) Question {
	if q.Zone == nil {
		q.Zone = time.UTC
	}
	if !(q.DepthCm > 0) {
		q.DepthCm = t.settings.depthCm
	}
	if !(q.Widen > 0) {
		q.Widen = 1
	}
	return q
}

func (b *stage) condition(q Question) Condition {
	c := Condition{
		Reading:      b.reading(q.DepthCm).Widened(q.Widen),
		Moisture:     b.band(func(m *member) float64 { return m.S.Moisture() }),
		CoreMoisture: b.band(func(m *member) float64 { return m.S.CoreMoisture() }),
		VolumeL:      b.band(func(m *member) float64 { return m.S.VolumeL(&m.P) }),
		WaterL:       b.band(func(m *member) float64 { return m.S.WaterWanted(WaterTo) }),
		Lost:         b.band(func(m *member) float64 { return m.S.Loss() }),
		Respiration:  b.band(func(m *member) float64 { return m.S.RespirationIndex(&m.P) }),
		Dry:          b.share((*member).dry),
		Airless:      b.share(func(m *member) bool { return m.S.Core.O2 < airlessO2 }),
		HotShare:     b.share(func(m *member) bool { return m.S.Core.T >= hotCoreC }),
	}
	c.WantsWater = c.Dry > 0.5
	for _, p := range phases {
		if share := b.share(func(m *member) bool { return m.phase() == p }); share > c.PhaseShare {
			c.Phase, c.PhaseShare = p, share
		}
	}
	return c
}

func (m *member) dry() bool { return m.S.CoreMoisture() < DryBelow }

// share is the weight of the members that are so.
func (b *stage) share(so func(*member) bool) float64 {
	sum := 0.0
	for i := range b.members {
		if so(&b.members[i]) {
			sum += b.weight[i]
		}
	}
	return sum
}

// fortnight fills in the hours and days.
func (t *Track) fortnight(q Question, o *Outlook) {
	start := t.now.few()
	a := t.ahead(start.members)
	now := stage{members: a.members, weight: start.weight}
	for h := range OutlookDays*24 + 1 {
		if h > 0 {
			a.run(1)
		}
		at := moment(a.hour)
		o.Hours = append(o.Hours, now.reading(q.DepthCm).Widened(q.Widen))
		// The half hour takes zones that are not whole hours off.
		if local := at.In(q.Zone).Add(30 * time.Minute); local.Hour() == 12 && h > 0 {
			o.Days = append(o.Days, Day{
				At:       at,
				Reading:  o.Hours[h],
				Moisture: now.band(func(m *member) float64 { return m.S.Moisture() }),
				VolumeL:  now.band(func(m *member) float64 { return m.S.VolumeL(&m.P) }),
				Dry:      now.share((*member).dry),
			})
		}
		if _, told := t.sky.told(a.hour); !told && h < OutlookDays*24 {
			o.Unknown += 1.0 / (OutlookDays * 24)
		}
	}
}
