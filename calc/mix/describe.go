package mix

// Describe says what the parts with waterL litres of water are: typical values,
// the 10 and 90 % points of the draws and how often the blend holds. The same
// arguments give the same Profile. Draws below 500 are raised to 500; 0 means
// 1000. Parts that Resolve refuses give the zero Profile.
func Describe(parts []Part, waterL float64, seed uint64, draws int) Profile {
	if _, err := Resolve(parts); err != nil || !(waterL >= 0 && waterL <= maxVolumeL) {
		return Profile{}
	}
	s := newSampler(seed, draws)
	sum := s.sum(parts)
	for i := range sum {
		sum[i] = sum[i].AddWater(waterL)
	}
	return s.profile(Blend{}.Add(canonical(parts)...).AddWater(waterL), sum)
}
