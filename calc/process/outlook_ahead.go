package process

// ahead runs members into the future of a track. Runs from the same hour meet
// the same chances, so that they differ only by what is done to them.
type ahead struct {
	track   *Track
	sky     sky
	members []member
	hour    int64
}

// ahead starts from now with copies of members.
func (t *Track) ahead(members []member) ahead {
	return ahead{track: t, sky: t.sky, members: append([]member(nil), members...), hour: t.now.hour}
}

// run goes on by hours in one piece of weather that crosses no midnight.
func (a *ahead) run(hours int64) {
	a.sky.load(a.hour, int(hours))
	for i := range a.members {
		m := &a.members[i]
		m.step(&a.track.settings.setup, a.sky.of(m))
	}
	if a.hour += hours; a.hour%24 == 0 {
		r := a.track.story.chance(a.hour, drawnAhead)
		for i := range a.members {
			a.members[i].disturb(a.track.sky.climate.spreadC(), r)
		}
	}
}

// to goes on to an hour.
func (a *ahead) to(hour int64) {
	for a.hour < hour {
		a.run(1)
	}
}

// turn turns every member.
func (a *ahead) turn() {
	a.sky.load(a.hour, 1)
	for i := range a.members {
		m := &a.members[i]
		m.turn(a.sky.of(m).C)
	}
}

// few is the stage with no more than Members.
func (b *stage) few() stage {
	if len(b.members) <= Members {
		return *b
	}
	few := stage{members: b.some(Members), weight: make([]float64, Members)}
	for i := range few.weight {
		few.weight[i] = 1.0 / Members
	}
	return few
}

// some picks n members evenly by weight.
func (b *stage) some(n int) []member {
	out := make([]member, 0, n)
	at, sum := 0, b.weight[0]
	for k := range n {
		for point := (float64(k) + 0.5) / float64(n); point > sum && at < len(b.members)-1; {
			at++
			sum += b.weight[at]
		}
		out = append(out, b.members[at])
	}
	return out
}
