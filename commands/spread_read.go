package commands

import (
	"fmt"
	"slices"
	"strings"

	"heapside/calc/fault"
	"heapside/calc/feedstock"
	"heapside/calc/spread"
)

// The materials of the table that are spread.
const (
	compostID = "compost-finished"
	roughID   = "compost-unfinished"
	ashID     = "wood-ash"
	limeID    = "garden-lime"
)

// spreading reads a call: its options, and what its loose words say.
func (d *desk) spreading() (s spreading, err error) {
	s.crop, s.cropSaid = spread.CropNamed(d.arg("crop"))
	if err := d.readWords(&s, d.arg("what")); err != nil {
		return s, err
	}
	if said := d.arg("area"); said != "" {
		if s.bedM2, err = d.m.ParseArea(said); err != nil {
			return s, err
		}
	}
	if said := d.arg("depth"); said != "" {
		if s.depthCm, err = d.m.ParseDepth(said); err != nil {
			return s, err
		}
	}
	if said := d.arg("beds"); said != "" {
		if s.beds, err = bedsSaid(said); err != nil {
			return s, err
		}
	}
	if s.heap == nil && d.arg("heap") != "" {
		err = d.readHeap(&s, d.arg("heap"))
	}
	return s, err
}

func (d *desk) readHeap(s *spreading, name string) error {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return err
	}
	h, err := findHeap(heaps, name)
	if err != nil {
		return err
	}
	s.heap, err = d.source(h)
	return err
}

// spreadWords are loose words that add nothing.
var spreadWords = strings.Fields("a an the of for on to at in with by over and each from my our some deep thick compost finished layer spread cover bed beds per it put go goes x how far will would does do , . ; ? !")

// cropWords are words for what compost goes on.
var cropWords = map[string]string{
	"vegetable": spread.Vegetables, "vegetables": spread.Vegetables, "veg": spread.Vegetables, "veggies": spread.Vegetables, "potatoes": spread.Vegetables, "tomatoes": spread.Vegetables,
	"seedling": spread.Seedlings, "seedlings": spread.Seedlings, "pots": spread.Seedlings, "seeds": spread.Seedlings,
	"lawn": spread.Lawn, "lawns": spread.Lawn, "turf": spread.Lawn,
	"acid": spread.AcidLovers, "lovers": spread.AcidLovers, "blueberries": spread.AcidLovers, "azaleas": spread.AcidLovers, "rhododendrons": spread.AcidLovers, "heathers": spread.AcidLovers, "camellias": spread.AcidLovers,
	"tree": spread.Trees, "trees": spread.Trees, "shrubs": spread.Trees,
}

// readWords takes "2 barrows on 3 m2, 5 cm deep" apart: area, depth, beds and
// amount by their measures, then the crop, and what is left names the material.
func (d *desk) readWords(s *spreading, text string) (err error) {
	if said, rest, ok := d.m.AreaIn(text); ok {
		text = rest
		if s.bedM2, err = d.m.ParseArea(said); err != nil {
			return err
		}
	}
	if said, rest, ok := d.m.DepthIn(text); ok {
		text = rest
		if s.depthCm, err = d.m.ParseDepth(said); err != nil {
			return err
		}
	}
	words := tokens(strings.ToLower(tidy(text)))
	if n, rest, ok := cutBeds(words); ok {
		words = rest
		if s.beds, err = bedsSaid(n); err != nil {
			return err
		}
	}
	amount, words := d.cutAmount(words)
	left := slices.DeleteFunc(words, func(w string) bool { return slices.Contains(spreadWords, w) })
	if s.heap == nil && len(left) > 0 && d.isHeap(strings.Join(left, " ")) {
		if err := d.readHeap(s, strings.Join(left, " ")); err != nil {
			return err
		}
		left = nil
	}
	if d.arg("crop") == "" {
		left = s.cutCrop(left)
	}
	if s.material, err = d.spreadable(strings.Join(left, " "), text); err != nil || amount == "" {
		return err
	}
	return d.readAmount(s, amount)
}

// cutBeds takes "4 beds" out of words that say no area.
func cutBeds(words []string) (n string, rest []string, ok bool) {
	i := slices.IndexFunc(words, func(w string) bool { return w == "bed" || w == "beds" })
	if i < 1 || numberOf(words[i-1]) == 0 {
		return "", words, false
	}
	return words[i-1], slices.Delete(slices.Clone(words), i-1, i+1), true
}

// longestAmount is how many words an amount has at most: own choice.
const longestAmount = 8

// cutAmount takes the first amount out of words.
func (d *desk) cutAmount(words []string) (amount string, rest []string) {
	for i := range words {
		for end := min(len(words), i+longestAmount); end > i && isCount(words[i]); end-- {
			said := strings.Join(words[i:end], " ")
			_, err := d.local.ParseAmount(said)
			if err == nil || fault.Is(err, fault.OutOfRange) && !strings.HasPrefix(said, "-") {
				return said, slices.Delete(slices.Clone(words), i, end)
			}
		}
	}
	return "", words
}

func (d *desk) isHeap(words string) bool {
	heaps, err := d.store.Heaps(d.ctx, d.call.Place)
	if err != nil {
		return false
	}
	return slices.ContainsFunc(namesOf(kept(heaps)), func(name string) bool { return heapKey(name) == heapKey(words) })
}

// cutCrop takes the crop out of words.
func (s *spreading) cutCrop(words []string) []string {
	return slices.DeleteFunc(words, func(w string) bool {
		name, ok := cropWords[w]
		if ok {
			s.crop, s.cropSaid = spread.CropNamed(name)
		}
		return ok
	})
}

// spreadNames are materials whose names the table shares with others ("lime" is
// a tree too).
var spreadNames = map[string]string{"lime": limeID, "garden lime": limeID, "ash": ashID, "wood ash": ashID}

// spreadable is the material that words name, empty for compost.
func (d *desk) spreadable(words, said string) (string, error) {
	if words == "" {
		return "", nil
	}
	if id, ok := spreadNames[words]; ok {
		return id, nil
	}
	match := d.table.Find(words)
	known := match.Outcome == feedstock.Found || match.Outcome == feedstock.Guessed
	switch {
	case match.Outcome == feedstock.Banned:
		return "", d.refused(match.Refusal)
	case known && slices.Contains([]string{ashID, limeID, roughID}, match.Feedstock.ID):
		return match.Feedstock.ID, nil
	case known && match.Feedstock.ID == compostID:
		return "", nil
	case known:
		return "", fault.New(fault.NotUnderstood, "%s", strings.TrimSpace(fmt.Sprintf(
			"Only compost, wood ash and lime are reckoned here. What to do with %s says: mix 2 buckets of %s. %s", d.called(match.Feedstock), d.called(match.Feedstock), d.sayCaution(match.Feedstock))))
	}
	if _, err := d.m.ParseArea(words); fault.Is(err, fault.Missing) {
		return "", err // one side, or a number without a unit
	}
	return "", fault.New(fault.NotUnderstood, "I do not know what to do with “%s” in “%s”. Say for example: spread 3 m2 5 cm, spread 2 barrows on 4 x 1.2 m, or spread ash 20 m2.", quote(words), quote(said))
}

// readAmount reads how much there is; compost said by weight is turned into
// litres by the table's weight.
func (d *desk) readAmount(s *spreading, said string) (err error) {
	if s.amount, err = d.local.ParseAmount(said); err != nil || s.material == ashID || s.material == limeID {
		return err
	}
	if volume, ok := s.amount.Volume(); ok {
		s.litres = volume.Typical
		return nil
	}
	mass, _ := s.amount.Mass()
	compost, ok := d.table.ByID(compostID)
	if !ok {
		return fault.New(fault.Unknown, "“%s” is a weight, and how heavy compost is is not known here. Say it in buckets or litres.", quote(said))
	}
	s.litres = mass.Typical / compost.Density.Typical * 1000
	return nil
}
