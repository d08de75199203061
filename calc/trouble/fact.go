package trouble

import (
	"time"

	"heapside/calc/heap"
	"heapside/calc/maturity"
	"heapside/calc/mix"
)

const day = 24 * time.Hour

// Edges of facts. All own choice where no source is named.
const (
	signAge    = 14 * day // a squeeze, a smell or an addition is of today until then
	readingAge = 7 * day
	unturned   = 14 * day // not turned for long
	workingC   = 40.0     // 40-60 C is where a heap works fastest (Cornell, compost physics, seen)
	hotC       = 65.0     // "keep below about 65 C" (Cornell, compost physics, seen)
	seedC      = 55.0     // no one temperature kills all seeds; most published tests begin here
	frostC     = 5.0
	wetModel   = 0.65 // wet basis: above 60-65 % a heap may lack air (AgriFutures, seen; Cornell, seen)
	richCN     = 20.0 // the low end of what holds for a mix (LSU AgCenter 3838-D after NRAES-54)
	poorCN     = 40.0 // its high end
	mattingIn  = 0.4  // share of the volume
	woodIn     = 0.3
	longFed    = 56 * day // as for "no single batch" in calc/advice
	newFor     = 5 * day  // 63 small-scale runs (Khandakar, Kibria et al.) peaked mostly on day 4 to 7
)

// known is what is known of a fact: it holds, it does not, or nothing is known.
type known int8

const (
	unknown known = iota
	yes
	no
)

// fact is something the record tells of a heap, with the sentence that says so
// and, where it is not known, what would show it.
type fact struct {
	is  known
	why string
}

// rule finds one fact. ask is what to do where it is not known.
type rule struct {
	code, ask string
	find      func(look) fact
}

func holds(is bool, why string) fact {
	if is {
		return fact{yes, why}
	}
	return fact{is: no}
}

// either is a fact whose opposite has a sentence too.
func either(is bool, why, whyNot string) fact {
	if is {
		return fact{yes, why}
	}
	return fact{no, whyNot}
}

const askSqueeze = "Squeeze a handful from the middle: if it drips it is too wet, if it crumbles too dry."

var facts = []rule{
	{"wet", askSqueeze, func(l look) fact {
		if why, class := l.squeeze(); class != "" {
			return either(class == heap.Drips || class == heap.Runs, why, why)
		}
		if l.Condition == nil {
			return fact{}
		}
		m := l.Condition.Moisture
		switch {
		case m.Low > wetModel || m.Mid > wetModel:
			return fact{yes, l.Measures.Say("the model has it at about %.0f %% water", 100*m.Mid)}
		case m.High < wetModel:
			return fact{no, l.Measures.Say("the model has it at about %.0f %% water", 100*m.Mid)}
		}
		return fact{}
	}},
	{"dry", askSqueeze, func(l look) fact {
		if why, class := l.squeeze(); class != "" {
			return either(class == heap.Crumbles, why, why)
		}
		if l.Condition == nil {
			return fact{}
		}
		said := l.Measures.Say("by the model the middle is too dry with a chance of %s", l.Measures.SayOdds(l.Condition.Dry))
		switch {
		case l.Condition.Dry > 0.5:
			return fact{yes, said}
		case l.Condition.Dry < 0.2:
			return fact{no, said}
		}
		return fact{}
	}},
	{"rich", "Say what went in (log add), so that its C:N can be worked out.", func(l look) fact {
		if l.cn <= 0 {
			return fact{}
		}
		return either(l.cn < richCN, l.Measures.Say("what went in has a C:N of about %.0f, rich in greens", l.cn), l.carbon())
	}},
	{"poor", "Say what went in (log add), so that its C:N can be worked out.", func(l look) fact {
		if l.cn <= 0 {
			return fact{}
		}
		return either(l.cn > poorCN, l.Measures.Say("what went in has a C:N of about %.0f, short of greens", l.cn), l.carbon())
	}},
	{"small", "Measure how high it stands (log height).", func(l look) fact {
		if !(l.s.VolumeL > 0) {
			return fact{}
		}
		said := l.Measures.Say("it holds about %s", l.Measures.SayBulk(l.s.VolumeL))
		return either(l.s.VolumeL < mix.MinHeatL, said, said)
	}},
	{"warm", "Take the temperature in the middle.", func(l look) fact {
		if !l.hasLast {
			return fact{}
		}
		return either(l.last.C >= workingC, l.reads(), l.reads())
	}},
	{"too-hot", "Take the temperature in the middle.", func(l look) fact {
		if !l.hasLast {
			return fact{}
		}
		return either(l.last.C > hotC, l.reads(), l.reads())
	}},
	{"was-hot", "", func(l look) fact {
		if len(l.s.Readings) == 0 {
			return fact{}
		}
		hot, was := maturity.LastHot(l.s)
		if !was {
			return fact{no, l.Measures.Word("it was never hot since it was filled")}
		}
		return fact{yes, l.Measures.Say("it read %s %s", l.Measures.SayTemperature(hot.C), l.ago(hot.At))}
	}},
	{"hot-enough", "", func(l look) fact {
		if len(l.s.Readings) == 0 {
			return fact{}
		}
		said := l.Measures.Say("its highest reading was %s", l.Measures.SayTemperature(l.s.PeakC))
		return either(l.s.PeakC >= seedC, said, said)
	}},
	{"unturned", "", func(l look) fact {
		if l.s.Age == 0 {
			return fact{}
		}
		since, said := l.s.Age, l.Measures.Say("it was not turned since it was started %s", l.ago(l.s.Now.Add(-l.s.Age)))
		if t := l.s.LastTurn(); !t.IsZero() {
			since, said = l.s.Now.Sub(t), l.Measures.Say("it was last turned %s", l.ago(t))
		}
		return either(since >= unturned, said, said)
	}},
	{"airless", "Push a fork in: a foul smell from inside means that no air gets there.", func(l look) fact {
		if l.Condition == nil {
			return fact{}
		}
		said := l.Measures.Say("by the model the middle is short of air with a chance of %s", l.Measures.SayOdds(l.Condition.Airless))
		switch {
		case l.Condition.Airless > 0.5:
			return fact{yes, said}
		case l.Condition.Airless < 0.2:
			return fact{no, said}
		}
		return fact{}
	}},
	{"matted", "Open it with a fork: layers that come off like felt let no air through.", func(l look) fact {
		share, coarse := l.matting()
		if share < 0 {
			return fact{}
		}
		return holds(share >= mattingIn && !coarse, l.Measures.Word("much of what went in mats, and nothing coarse holds it open"))
	}},
	{"food", "", func(l look) fact {
		at, ok := l.food()
		return holds(ok, l.Measures.Say("kitchen scraps went in %s", l.ago(at)))
	}},
	{"bare", "", func(l look) fact {
		at, ok := l.food()
		return holds(ok && !l.brownsSince(at), l.Measures.Word("no browns are on record as put over the kitchen scraps"))
	}},
	{"open", "", func(l look) fact {
		container := l.s.Heap.Container
		return holds(!l.s.Covered && (container == heap.OpenHeap || container == heap.PalletBay), l.Measures.Word("nothing covers it"))
	}},
	{"rained", "", func(l look) fact {
		return holds(l.s.RainMm >= soakingMm && !l.s.Covered, l.Measures.Say("%s of rain fell on it since the last squeeze test", l.Measures.SayRain(l.s.RainMm)))
	}},
	{"frost", "", func(l look) fact {
		if l.AirC == nil {
			return fact{}
		}
		said := l.Measures.Say("the air is at about %s", l.Measures.SayTemperature(*l.AirC))
		return either(*l.AirC < frostC, said, said)
	}},
	{"fed-on", "", func(l look) fact {
		_, hot := maturity.LastHot(l.s)
		return holds(!hot && l.s.Age >= longFed && l.s.Now.Sub(l.s.LastAdded) <= signAge, l.Measures.Say("it has been topped up bit by bit for %s", l.Measures.SayDays(l.s.Age)))
	}},
	{"new", "", func(l look) fact {
		return holds(len(l.s.Content) > 0 && l.s.Now.Sub(l.s.RefilledAt) < newFor, l.Measures.Say("it was filled %s", l.ago(l.s.RefilledAt)))
	}},
	{"cured", "", func(l look) fact {
		_, curing := maturity.CuringSince(l.s)
		stage, why := maturity.StageIn(l.s, l.Measures.Style)
		return holds(curing || stage == maturity.Ready || stage == maturity.Curing, l.clause(why))
	}},
	{"earthy", "Smell a handful: earth is a good sign.", func(l look) fact {
		if l.s.Smell == "" || l.s.Now.Sub(l.s.SmellAt) > signAge {
			return fact{}
		}
		said := l.Measures.Say(smelled[l.s.Smell], l.ago(l.s.SmellAt))
		return either(l.s.Smell == "earthy", said, said)
	}},
	{"woody", "", func(l look) fact {
		return holds(l.woody() >= woodIn, l.Measures.Word("much of what went in is wood or bark"))
	}},
}
