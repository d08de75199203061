package heap_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"heapside/calc/fault"
	"heapside/calc/heap"
)

// stored is one payload of each kind as it stands in the files groups have.
// The texts are never edited, only added to.
var stored = []struct {
	payload heap.Payload
	text    string
}{
	{heap.Started{}, `{}`},
	{heap.Added{Material: "grass", Name: "grass clippings", Said: "2 buckets", VolumeL: 24, MassKg: 5.2},
		`{"material":"grass","name":"grass clippings","said":"2 buckets","volume_l":24,"mass_kg":5.2}`},
	{heap.Added{Material: "grass", Name: "grass clippings", Said: "2 buckets", VolumeL: 24, MassKg: 5.2, AgeDays: 30},
		`{"material":"grass","name":"grass clippings","said":"2 buckets","volume_l":24,"mass_kg":5.2,"age_days":30}`},
	{heap.Temp{C: 58.5, DepthCm: 40, Spot: "middle", Said: "58.5"}, `{"c":58.5,"depth_cm":40,"spot":"middle","said":"58.5"}`},
	{heap.Feel{Squeeze: heap.Drips}, `{"squeeze":"drips"}`},
	{heap.Smell{Smell: "ammonia"}, `{"smell":"ammonia"}`},
	{heap.Turned{}, `{}`},
	{heap.Watered{Litres: 20, Said: "two cans"}, `{"litres":20,"said":"two cans"}`},
	{heap.Covered{On: true, With: "tarp"}, `{"on":true,"with":"tarp"}`},
	{heap.Height{Cm: 80, Said: "80 cm"}, `{"cm":80,"said":"80 cm"}`},
	{heap.Rain{Mm: 12, Said: "12 mm"}, `{"mm":12,"said":"12 mm"}`},
	{heap.Test{Test: "jar", Result: "earthy", Passed: true}, `{"test":"jar","result":"earthy","passed":true}`},
	{heap.Test{Test: "germination", Result: "18 of 20, control 19 of 20", Passed: true, Numbers: []heap.Number{{Name: "sprouted", Value: 18, Unit: "1"}, {Name: "root", Value: 30.5, Unit: "mm"}}},
		`{"test":"germination","result":"18 of 20, control 19 of 20","passed":true,"numbers":[{"name":"sprouted","value":18,"unit":"1"},{"name":"root","value":30.5,"unit":"mm"}]}`},
	{heap.Note{Text: "slow-worm under the tarp"}, `{"text":"slow-worm under the tarp"}`},
	{heap.Moved{Other: 3, OtherName: "South Bay", Share: 0.5}, `{"other":3,"other_name":"South Bay","in":false,"share":0.5}`},
	{heap.Changed{Field: "aim", From: "fast", To: "steady"}, `{"field":"aim","from":"fast","to":"steady"}`},
	{heap.Finished{YieldL: 120}, `{"yield_l":120}`},
	{heap.Voided{Entry: 9, Was: heap.KindTemp}, `{"entry":9,"was":"temperature"}`},
}

func TestPayloadsAreWrittenAndReadAsEver(t *testing.T) {
	for _, row := range stored {
		data, err := heap.Encode(row.payload)
		require.NoError(t, err)
		assert.JSONEq(t, row.text, string(data))
		read, err := heap.Decode(row.payload.Kind(), []byte(row.text))
		require.NoError(t, err)
		assert.Equal(t, row.payload, read)
	}
}

func TestFieldsOfALaterVersionArePassedOver(t *testing.T) {
	read, err := heap.Decode(heap.KindTemp, []byte(` {"c":58,"said":"58","probe":"long"}`))
	require.NoError(t, err)
	assert.Equal(t, heap.Temp{C: 58, Said: "58"}, read)
}

type stranger struct{}

func (stranger) Kind() heap.Kind { return heap.KindTemp }

func TestWhatIsNoPayloadIsNotWritten(t *testing.T) {
	for name, p := range map[string]heap.Payload{
		"none": nil, "a pointer": &heap.Temp{}, "a nil pointer": (*heap.Temp)(nil), "a stranger": stranger{},
	} {
		_, err := heap.Encode(p)
		assert.Error(t, err, name)
	}
}

func TestWhatNoHeapCanHaveIsRefusedBothWays(t *testing.T) {
	for name, row := range map[string]struct {
		code    fault.Code
		payload heap.Payload
		text    string
	}{
		"a temperature of 580":  {fault.OutOfRange, heap.Temp{C: 580}, `{"c":580}`},
		"below absolute zero":   {fault.OutOfRange, heap.Temp{C: -300}, `{"c":-300}`},
		"a negative volume":     {fault.OutOfRange, heap.Added{VolumeL: -1}, `{"volume_l":-1}`},
		"a mountain":            {fault.OutOfRange, heap.Added{MassKg: 1e12}, `{"mass_kg":1e12}`},
		"a negative age":        {fault.OutOfRange, heap.Added{AgeDays: -1}, `{"age_days":-1}`},
		"a share above all":     {fault.OutOfRange, heap.Moved{Share: 1.1}, `{"share":1.1}`},
		"a tower":               {fault.OutOfRange, heap.Height{Cm: 1e5}, `{"cm":1e5}`},
		"a deluge":              {fault.OutOfRange, heap.Rain{Mm: 1e5}, `{"mm":1e5}`},
		"negative water":        {fault.OutOfRange, heap.Watered{Litres: -3}, `{"litres":-3}`},
		"a negative yield":      {fault.OutOfRange, heap.Finished{YieldL: -3}, `{"yield_l":-3}`},
		"an unknown squeeze":    {fault.NotUnderstood, heap.Feel{Squeeze: "squelches"}, `{"squeeze":"squelches"}`},
		"an unknown smell":      {fault.NotUnderstood, heap.Smell{Smell: "purple"}, `{"smell":"purple"}`},
		"an unknown attribute":  {fault.NotUnderstood, heap.Changed{Field: "colour"}, `{"field":"colour"}`},
		"a number of a test":    {fault.OutOfRange, heap.Test{Numbers: []heap.Number{{Name: "ph", Value: 1e9}}}, `{"numbers":[{"name":"ph","value":1e9}]}`},
		"a depth of a borehole": {fault.OutOfRange, heap.Temp{DepthCm: 1e5}, `{"depth_cm":1e5}`},
	} {
		_, err := heap.Encode(row.payload)
		f, ok := fault.As(err)
		require.True(t, ok, "%s: %v", name, err)
		assert.Equal(t, row.code, f.Code, name)
		_, err = heap.Decode(row.payload.Kind(), []byte(row.text))
		assert.Error(t, err, name)
	}
	for _, c := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, err := heap.Encode(heap.Temp{C: c})
		assert.Error(t, err)
	}
}

func TestDamagedTextIsNotRead(t *testing.T) {
	for _, text := range []string{"", " ", "null", "[]", "7", `"x"`, "{", `{"c":"hot"}`, `{"c":58}{}`, `{"c":1e999}`} {
		_, err := heap.Decode(heap.KindTemp, []byte(text))
		assert.Error(t, err, text)
	}
	_, err := heap.Decode("weather", []byte("{}"))
	assert.ErrorContains(t, err, `"weather"`)
}

func FuzzDecode(f *testing.F) {
	for _, row := range stored {
		f.Add(string(row.payload.Kind()), []byte(row.text))
	}
	f.Add("temperature", []byte(`{"c":58,"c":"x"}`))
	f.Add("note", []byte("{\"text\":\"\\ud800\xff\"}"))
	f.Fuzz(func(t *testing.T, kind string, data []byte) {
		p, err := heap.Decode(heap.Kind(kind), data)
		if err != nil {
			return
		}
		require.Equal(t, heap.Kind(kind), p.Kind())
		written, err := heap.Encode(p)
		require.NoError(t, err)
		again, err := heap.Decode(p.Kind(), written)
		require.NoError(t, err)
		require.Equal(t, p, again)
	})
}
