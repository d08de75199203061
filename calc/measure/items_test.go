package measure

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
)

// summary prints items so that a table can hold them: "2 bucket grass".
func summary(items []Item) string {
	var all []string
	for _, it := range items {
		all = append(all, strings.TrimSpace(fmt.Sprintf("%.4g %s %s", it.Amount.Count.Typical, it.Amount.Unit.One, it.Material)))
	}
	return strings.Join(all, "; ")
}

func TestParseItems(t *testing.T) {
	tests := []struct{ text, want string }{
		// Counts.
		{"2 buckets of grass clippings and half a bucket coffee grounds", "2 bucket grass clippings; 0.5 bucket coffee grounds"},
		{"half a barrow of leaves", "0.5 barrow leaves"},
		{"1½ sacks leaves", "1.5 sack leaves"},
		{"½ bucket grass", "0.5 bucket grass"},
		{"2 ½ buckets grass", "2.5 bucket grass"},
		{"1 1/2 buckets grass", "1.5 bucket grass"},
		{"3/4 barrow leaves", "0.75 barrow leaves"},
		{"one and a half bags of bark", "1.5 bag bark"},
		{"two and a half buckets of grass and a quarter of a bucket of ash", "2.5 bucket grass; 0.25 bucket ash"},
		{"a bucket and a half of leaves", "1.5 bucket leaves"},
		{"a barrow of straw and a half bucket of ash", "1 barrow straw; 0.5 bucket ash"},
		{"a barrow and a half bucket", "1 barrow; 0.5 bucket"},
		{"three quarters of a barrow grass", "0.75 barrow grass"},
		{"two-thirds of a barrow of manure", "0.6667 barrow manure"},
		{"a couple of armfuls of straw", "2 armful straw"},
		{"a few handfuls of wood ash", "3 handful wood ash"},
		{"several buckets of grass", "4 bucket grass"},
		{"half a dozen buckets of nettles", "6 bucket nettles"},
		{"two dozen litres of peelings", "24 litre peelings"},
		{"twenty-five litres of leaves", "25 litre leaves"},
		{"two hundred and fifty litres of leaves", "250 litre leaves"},
		{"a hundred litres of leaves", "100 litre leaves"},
		{"1,5 kg coffee grounds", "1.5 kg coffee grounds"},
		{"1.5 kg coffee grounds", "1.5 kg coffee grounds"},
		{".5 kg coffee grounds", "0.5 kg coffee grounds"},
		{"1,000 litres of leaves", "1000 litre leaves"},
		{"10 lbs coffee grounds n 3 bags of leaves", "10 lb coffee grounds; 3 bag leaves"},
		{"2 lb of bread crusts", "2 lb bread crusts"},
		{"٣ buckets of grass", "3 bucket grass"},
		// Ranges.
		{"2-3 buckets grass", "2.5 bucket grass"},
		{"2–3 buckets of grass", "2.5 bucket grass"},
		{"2 to 3 buckets of grass", "2.5 bucket grass"},
		{"two or three buckets of grass", "2.5 bucket grass"},
		{"between 2 and 3 buckets of grass, and 1 sack of leaves", "2.5 bucket grass; 1 sack leaves"},
		{"leaves between 2 and 4 sacks", "3 sack leaves"},
		// Multiplied and sized.
		{"3 x 40 l bags of soil", "3 40 litre bag soil"},
		{"3 × 40l soil", "120 litre soil"},
		{"3x40l soil", "120 litre soil"},
		{"2 five-gallon buckets of grass", "2 5 gallon bucket grass"},
		{"2 5-gallon buckets of grass", "2 5 gallon bucket grass"},
		{"a 20 litre bucket of grass", "1 20 litre bucket grass"},
		{"20 litre bucket of grass", "1 20 litre bucket grass"},
		{"two 25 kg sacks of pellets", "2 25 kg sack pellets"},
		{"3 bags (40 l each) of leaves", "3 40 litre bag leaves"},
		{"3 bags of 40 litres of leaves", "3 40 litre bag leaves"},
		{"4 barrows (about 28 buckets) of leaves", "4 barrow leaves"},
		{"2 full buckets of grass", "2 bucket grass"},
		{"2 barrow loads of manure", "2 barrow manure"},
		{"5 bucketfuls of grass", "5 bucket grass"},
		{"bucket of grass", "1 bucket grass"},
		{"2 bukets grass", "2 bucket grass"},
		// Order and joints.
		{"grass clippings 2 buckets", "2 bucket grass clippings"},
		{"grass: 2 buckets, leaves: half a bucket", "2 bucket grass; 0.5 bucket leaves"},
		{"grass clippings x 2 buckets", "2 bucket grass clippings"},
		{"grass (2 buckets)", "2 bucket grass"},
		{"grass - 2 buckets", "2 bucket grass"},
		{"grass 2 buckets and leaves 3 buckets", "2 bucket grass; 3 bucket leaves"},
		{"grass 2 and a half buckets", "2.5 bucket grass"},
		{"leaves, 2 buckets", "2 bucket leaves"},
		{"3 grass buckets", "3 bucket grass"},
		{"2 straw bales", "2 bale straw"},
		// Lists.
		{"2 buckets of tea bags and leaves", "2 bucket tea bags and leaves"},
		{"2 buckets of tea bags and 3 of leaves", "2 bucket tea bags; 3 bucket leaves"},
		{"2 buckets of grass, half of leaves", "error"},
		{"2 buckets grass 1 bucket leaves half a sack of bark", "2 bucket grass; 1 bucket leaves; 0.5 sack bark"},
		{"2 buckets grass 1 bucket leaves 3 kg coffee", "2 bucket grass; 1 bucket leaves; 3 kg coffee"},
		{"2 buckets of leaf mould 3 years old", "2 bucket leaf mould 3 years old"},
		{"3 bags of leaves, 40 l each", "3 40 litre bag leaves"},
		{"1 bucket grass / 2 buckets leaves", "1 bucket grass; 2 bucket leaves"},
		{"2 buckets each of grass and leaves", "2 bucket grass; 2 bucket leaves"},
		{"bucket and a half of grass", "1.5 bucket grass"},
		{"5 lb. of coffee grounds", "5 lb coffee grounds"},
		{"up to 3 buckets of grass", "3 bucket grass"},
		{"just over 2 buckets of grass", "2 bucket grass"},
		{"a mix of 2 bkts of grass and 1 bucket leaves", "error"},
		{"mix of 2 bkts of grass and 1 bucket leaves", "2 bucket grass; 1 bucket leaves"},
		{"two bags (leaves)", "2 bag leaves"},
		{"a full 20 litre bucket of grass", "1 20 litre bucket grass"},
		{"- 2 buckets grass\n* 1 bucket leaves\n1) 3 kg coffee\n\n• 1 crate scraps", "2 bucket grass; 1 bucket leaves; 3 kg coffee; 1 crate scraps"},
		{"2 buckets grass + 3 buckets leaves; 1 sack bark", "2 bucket grass; 3 bucket leaves; 1 sack bark"},
		{"2 buckets grass & 2 kg coffee plus 1 sack leaves with half a bucket of ash", "2 bucket grass; 2 kg coffee; 1 sack leaves; 0.5 bucket ash"},
		{"2 buckets grass,3 buckets leaves", "2 bucket grass; 3 bucket leaves"},
		{"2 buckets of grass clippings, wet, and 1 bucket of leaves", "2 bucket wet grass clippings; 1 bucket leaves"},
		{"1,5 kg coffee, 2 buckets grass", "1.5 kg coffee; 2 bucket grass"},
		// What people wrap around it.
		{"we have 2 buckets of grass", "2 bucket grass"},
		{"I’ve got two bags of leaves", "2 bag leaves"},
		{"there are 3 sacks of bark.", "3 sack bark"},
		{"Please add another 2 buckets of our grass, thanks", "error"},
		{"add another bucket of grass please!", "1 bucket grass"},
		{"**2 buckets** of grass", "2 bucket grass"},
		{"`2 buckets of grass`", "2 bucket grass"},
		{"🌱 2 buckets of grass 🌱 clippings", "2 bucket grass clippings"},
		{"\u202e2 buckets\u202c of\u200b grass", "2 bucket grass"},
		{"2 BUCKETS OF Grass", "2 bucket Grass"},
		{"2 buckets", "2 bucket"},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			items, err := Measures{}.ParseItems(tt.text)
			if tt.want == "error" {
				_, ok := fault.As(err)
				assert.True(t, ok, "%v", summary(items))
				return
			}
			require.NoError(t, err)
			assert.Equal(t, tt.want, summary(items))
		})
	}
}

func TestParseItemsSaysWhatIsWrong(t *testing.T) {
	tests := []struct {
		name, text string
		code       fault.Code
		quotes     string
	}{
		{"nothing", "", fault.Missing, "2 buckets"},
		{"only marks", " ,;\n+ ", fault.Missing, "2 buckets"},
		{"only emoji", "🌱🌱", fault.Missing, "2 buckets"},
		{"no amount", "leaves", fault.Missing, `“leaves”`},
		{"no amount in the second", "2 buckets grass, leaves", fault.Missing, `“leaves”`},
		{"no measure", "5 bananas", fault.Missing, `“5 bananas” has a number but no measure. Say it in buckets, litres or kilograms.`},
		{"tea bags are not bags of tea", "5 tea bags", fault.Missing, `“5 tea bags”`},
		{"a plural without a number", "buckets of grass", fault.Missing, `“buckets of grass”`},
		{"sized plural without a number", "25 litre bags of leaves", fault.Missing, "2 x 25 litre bags"},
		{"a measure nobody knows", "2 foobars of grass", fault.Unknown, `“foobars”`},
		{"a vague measure", "2 piles of leaves", fault.Unknown, `“2 piles of leaves”`},
		{"some", "2 buckets of leaves and some straw", fault.Missing, `“some straw”`},
		{"a bit", "2 buckets of leaves and a bit of ash", fault.Unknown, `“a bit of ash”`},
		{"parts", "2 parts grass", fault.Unknown, "leaves open"},
		{"two points", "2.5.6 buckets of grass", fault.Missing, `“2.5.6 buckets of grass”`},
		{"negative", "-3 buckets of grass", fault.OutOfRange, `“-3 buckets of grass”`},
		{"negative in the second", "2 buckets of grass and -1 bucket of leaves", fault.OutOfRange, `“-1 bucket of leaves” is less than nothing`},
		{"zero", "0 buckets of grass", fault.OutOfRange, `“0 buckets of grass”`},
		{"absurd", "10000 buckets of grass", fault.OutOfRange, "20 m³"},
		{"absurd mass", "30 tonnes of grass", fault.OutOfRange, "20 tonnes"},
		{"astronomic", "2" + strings.Repeat("0", 400) + " buckets of grass", fault.OutOfRange, "200"},
		{"not a number", "NaN buckets of grass", fault.Missing, `“NaN buckets of grass”`},
		{"infinite", "inf buckets of grass", fault.Missing, `“inf buckets of grass”`},
		{"exponent", "1e5 buckets of grass", fault.Missing, `“1e5 buckets of grass”`},
		{"division by zero", "1/0 buckets of grass", fault.Missing, `“1/0 buckets of grass”`},
		{"too little", "0.0001 ml of water", fault.OutOfRange, `“0.0001 ml of water”`},
		{"mention", "@everyone", fault.Missing, `“@everyone”`},
		{"query", "'; DROP TABLE entry; --", fault.Missing, "DROP TABLE entry"},
		{"too long", strings.Repeat("2 buckets of grass, ", 251), fault.TooLong, "5,000"},
		{"too many", strings.Repeat("1 bucket of grass, ", 21), fault.TooLong, "20"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			items, err := Measures{}.ParseItems(tt.text)
			require.Error(t, err, "%v", summary(items))
			f, ok := fault.As(err)
			require.True(t, ok, "%v is not for people", err)
			assert.Equal(t, tt.code, f.Code, f.Message)
			assert.Contains(t, f.Message, tt.quotes)
			assert.Empty(t, items)
		})
	}
}

func TestItemsKeepTheWords(t *testing.T) {
	items, err := Measures{}.ParseItems("We have 2-3 buckets of Grass clippings, and 1 sack leaves")
	require.NoError(t, err)
	require.Len(t, items, 2)
	assert.Equal(t, "2-3 buckets", items[0].Amount.Said)
	assert.Equal(t, "2-3 buckets of Grass clippings", items[0].Said)
	assert.Equal(t, Range{2, 2.5, 3}, items[0].Amount.Count)
	assert.Equal(t, "1 sack leaves", items[1].Said)
}

func TestParseAmount(t *testing.T) {
	us := Measures{System: US}
	own := Measures{Sizes: map[string]float64{"bucket": 14}}
	tests := []struct {
		name   string
		m      Measures
		text   string
		dim    Dimension
		want   float64
		source string
	}{
		{"litres", Measures{}, "14 l", Volume, 14, "the unit itself"},
		{"attached", Measures{}, "14l.", Volume, 14, "the unit itself"},
		{"half a barrow", Measures{}, "half a barrow", Volume, 42.5, "default barrow of 85 litres, common practice"},
		{"kilograms", Measures{}, "1,5 kg", Mass, 1.5, "the unit itself"},
		{"pounds", Measures{}, "2 lb", Mass, 0.90718474, "pound of 1959"},
		{"bale", Measures{}, "2 bales", Mass, 30, "bale of 15 kg, common practice"},
		{"the group's bucket", own, "3 buckets", Volume, 42, "the group's own 14 litres"},
		{"heaped", own, "2 heaped buckets", Volume, 35, "a quarter more, own choice"},
		{"half full", own, "2 half-full buckets", Volume, 14, "half of 14 litres, twice"},
		{"US bucket", us, "2 buckets", Volume, 37.85411784, "two 5 gallon pails"},
		{"US gallons", us, "10 gal", Volume, 37.85411784, "231 cubic inches each"},
		{"US five-gallon", us, "2 five-gallon buckets", Volume, 37.85411784, "231 cubic inches a gallon"},
		{"a yard of mulch", us, "a yard", Volume, 764.554857984, "27 cubic feet"},
		{"mass by the sack", Measures{}, "two 25 kg sacks", Mass, 50, "as said"},
		{"gloss", Measures{}, "20 litres (2 cans)", Volume, 20, "the unit itself"},
		{"cubic metres", Measures{}, "0.9 m³ (about 75 buckets)", Volume, 900, "the unit itself"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a, err := tt.m.ParseAmount(tt.text)
			require.NoError(t, err)
			total, ok := a.Volume()
			if tt.dim == Mass {
				total, ok = a.Mass()
			}
			require.True(t, ok, "dimension")
			assert.InEpsilon(t, tt.want, total.Typical, 1e-9, tt.source)
		})
	}
	for _, text := range []string{"", "bucket of grass", "grass", "2", "2 buckets 3 buckets", "-2 l", "- 2 l", "0 l", "NaN l", "21 t"} {
		_, err := Measures{}.ParseAmount(text)
		_, ok := fault.As(err)
		assert.True(t, ok, "%q: %v", text, err)
	}
}

func TestBigAndSmallWiden(t *testing.T) {
	usual, _ := Measures{}.ParseAmount("a bucket")
	big, _ := Measures{}.ParseAmount("a big bucket")
	small, _ := Measures{}.ParseAmount("a small bucket")
	u, b, s := usual.Unit.Size, big.Unit.Size, small.Unit.Size
	assert.Greater(t, b.Typical, u.Typical)
	assert.Less(t, s.Typical, u.Typical)
	assert.Greater(t, b.High-b.Low, u.High-u.Low, "what is big is less sure")
}
