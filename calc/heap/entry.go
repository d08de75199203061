package heap

// Kind is what an entry records.
type Kind string

// The kinds.
const (
	KindStarted  Kind = "started"
	KindAdded    Kind = "added"
	KindTemp     Kind = "temperature"
	KindFeel     Kind = "feel"
	KindSmell    Kind = "smell"
	KindTurned   Kind = "turned"
	KindWatered  Kind = "watered"
	KindCovered  Kind = "covered"
	KindHeight   Kind = "height"
	KindRain     Kind = "rain"
	KindTest     Kind = "test"
	KindNote     Kind = "note"
	KindMoved    Kind = "moved"
	KindChanged  Kind = "changed"
	KindFinished Kind = "finished"
	KindVoided   Kind = "voided"
)

// Payload is the content of an entry; each kind has one type.
type Payload interface{ Kind() Kind }

// Squeeze is the class of the squeeze test.
type Squeeze string

// The squeeze classes, driest first: about <40, 40-50, 50-60, 60-65 and >65 %
// moisture. Edges: AgriFutures, Water (50-60 %, below 30 % stops); eXtension and
// Rutgers (45-70 % as a wrung-out sponge); Plymouth MN (50 %: a clump, no
// drops); nwhorsesource.com (50-60 %: a drop or two). The joined scale is our own.
const (
	Crumbles Squeeze = "crumbles" // does not hold together
	Holds    Squeeze = "holds"    // a ball, no drops
	Drops    Squeeze = "drops"    // one to three drops
	Drips    Squeeze = "drips"    // more than three drops
	Runs     Squeeze = "runs"     // water runs out
)

// Payload types. Amounts are kept as said and as computed.
type (
	// Started opens a heap.
	Started struct{}
	// Added is material put on: id and name of the feedstock, words, litres, kg.
	// AgeDays is how long it had been rotting in the heap it came from, 0 when fresh.
	Added struct {
		Material string  `json:"material"`
		Name     string  `json:"name"`
		Said     string  `json:"said"`
		VolumeL  float64 `json:"volume_l"`
		MassKg   float64 `json:"mass_kg"`
		AgeDays  float64 `json:"age_days,omitempty"`
	}
	// Temp is a thermometer reading in Celsius; DepthCm 0 means not said.
	Temp struct {
		C       float64 `json:"c"`
		DepthCm float64 `json:"depth_cm,omitempty"`
		Spot    string  `json:"spot,omitempty"`
		Said    string  `json:"said"`
	}
	// Feel is a squeeze test.
	Feel struct {
		Squeeze Squeeze `json:"squeeze"`
	}
	// Smell is one of Smells.
	Smell struct {
		Smell string `json:"smell"`
	}
	// Turned is a turning.
	Turned struct {
		Note string `json:"note,omitempty"`
	}
	// Watered is water put on; Litres 0 means not measured.
	Watered struct {
		Litres float64 `json:"litres"`
		Said   string  `json:"said,omitempty"`
	}
	// Covered is a cover put on (On) or taken off.
	Covered struct {
		On   bool   `json:"on"`
		With string `json:"with,omitempty"`
	}
	// Height is the height of the heap in cm.
	Height struct {
		Cm   float64 `json:"cm"`
		Said string  `json:"said"`
	}
	// Rain is a gauge reading in mm since the last one.
	Rain struct {
		Mm   float64 `json:"mm"`
		Said string  `json:"said"`
	}
	// Test is a maturity or contamination test with its outcome in words and the
	// numbers that were read in them.
	Test struct {
		Test    string   `json:"test"`
		Result  string   `json:"result"`
		Passed  bool     `json:"passed"`
		Numbers []Number `json:"numbers,omitzero"`
	}
	// Number is one number of a test, with its unit as it stood in the result.
	Number struct {
		Name  string  `json:"name"`
		Value float64 `json:"value"`
		Unit  string  `json:"unit"`
	}
	// Note is free text.
	Note struct {
		Text string `json:"text"`
	}
	// Moved says the content went to (or came from) another heap. Share is 0 to 1.
	Moved struct {
		Other     ID      `json:"other"`
		OtherName string  `json:"other_name"`
		In        bool    `json:"in"`
		Share     float64 `json:"share"`
	}
	// Changed is a changed attribute of the heap.
	Changed struct {
		Field string `json:"field"` // name, container, size, cover, aim
		From  string `json:"from"`
		To    string `json:"to"`
	}
	// Finished closes a heap; YieldL 0 means not said.
	Finished struct {
		YieldL float64 `json:"yield_l,omitempty"`
	}
	// Voided takes back an entry.
	Voided struct {
		Entry EntryID `json:"entry"`
		Was   Kind    `json:"was"`
	}
)

// Smells are the smells the log knows.
var Smells = []string{"earthy", "none", "ammonia", "rotten", "sour"}

func (Started) Kind() Kind  { return KindStarted }
func (Added) Kind() Kind    { return KindAdded }
func (Temp) Kind() Kind     { return KindTemp }
func (Feel) Kind() Kind     { return KindFeel }
func (Smell) Kind() Kind    { return KindSmell }
func (Turned) Kind() Kind   { return KindTurned }
func (Watered) Kind() Kind  { return KindWatered }
func (Covered) Kind() Kind  { return KindCovered }
func (Height) Kind() Kind   { return KindHeight }
func (Rain) Kind() Kind     { return KindRain }
func (Test) Kind() Kind     { return KindTest }
func (Note) Kind() Kind     { return KindNote }
func (Moved) Kind() Kind    { return KindMoved }
func (Changed) Kind() Kind  { return KindChanged }
func (Finished) Kind() Kind { return KindFinished }
func (Voided) Kind() Kind   { return KindVoided }
