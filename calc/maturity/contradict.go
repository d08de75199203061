package maturity

// contradictions say plainly which entries cannot both be right, and which
// counts: the hottest, the worse. What a newer test speaks against is among the
// older lines. Nothing is taken off the record.
func (e evidence) contradictions(s Stage) []string {
	var list []string
	add := func(said string) {
		if said != "" {
			list = append(list, said)
		}
	}
	add(e.againstHeat(s))
	if s != Hot {
		add(e.amongTests())
	}
	if s == Ready {
		add(e.tooLittleLost())
	}
	return list
}

// againstHeat is what the heat of a hot heap speaks against, or "".
func (e evidence) againstHeat(s Stage) string {
	if s != Hot {
		return ""
	}
	reads := e.say.SayTemperature(e.last.C)
	switch {
	case len(e.passed) > 0:
		t := e.passed[0]
		return e.say.Say("The %s passed %s, yet it read %s %s: these contradict, and the heat counts.", e.name(t), e.ago(t.At), reads, e.ago(e.last.At))
	case e.sinceFresh >= ActiveAge:
		return e.say.Say("Nothing fresh is logged for %s, yet it is hot: something went in unlogged, or the reading is off.", e.say.SayDays(e.sinceFresh))
	case e.Smell == "earthy" && e.Now.Sub(e.SmellAt) <= StaleSign:
		return e.say.Word("An earthy smell speaks for ripe compost, the heat against it: the heat counts.")
	}
	return ""
}

// amongTests is which tests say otherwise than others or than the nose, or "".
func (e evidence) amongTests() string {
	against, ok := e.objecting()
	switch {
	case len(e.passed) == 0:
		return ""
	case ok:
		return e.say.Say("The %s passed, yet the %s %s: the worse counts until it is done again.", e.name(e.passed[0]), e.name(against), e.say.Word(outcomeWords[against.Outcome]))
	case e.badSmell:
		return e.say.Say("The %s passed, yet it smells %s: the smell counts.", e.name(e.passed[0]), e.smellWord())
	}
	return ""
}

// tooLittleLost says that a heap that counts as ready has lost less than ripe
// ones have, by its height (half of the usual, own choice) or by the model.
func (e evidence) tooLittleLost() string {
	if lost, ok := e.volumeLost(); ok && lost < lossLow/2 {
		return e.say.Say("It counts as ready, yet only %.0f %% of its volume is gone, where 30 to 50 %% is usual: look inside.", 100*max(0, lost))
	}
	if high := e.model.Lost.High; high > 0 && high < decomposed {
		return e.say.Say("It counts as ready by the record, yet the model guesses that at most %.0f %% of what can rot has rotted: look inside.", 100*high)
	}
	return ""
}
