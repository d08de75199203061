package feedstock

// Distance is the number of typing slips (a letter too many, missing, changed
// or swapped with its neighbour) between two words.
func Distance(a, b string) int { return distance(a, b, len(a)+len(b)) }
