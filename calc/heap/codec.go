package heap

import (
	"bytes"
	"encoding/json"
	"fmt"
	"reflect"
)

// types is the one list of payload types; a kind that is not here is neither
// written nor read.
var types = map[Kind]reflect.Type{
	KindStarted:  reflect.TypeFor[Started](),
	KindAdded:    reflect.TypeFor[Added](),
	KindTemp:     reflect.TypeFor[Temp](),
	KindFeel:     reflect.TypeFor[Feel](),
	KindSmell:    reflect.TypeFor[Smell](),
	KindTurned:   reflect.TypeFor[Turned](),
	KindWatered:  reflect.TypeFor[Watered](),
	KindCovered:  reflect.TypeFor[Covered](),
	KindHeight:   reflect.TypeFor[Height](),
	KindRain:     reflect.TypeFor[Rain](),
	KindTest:     reflect.TypeFor[Test](),
	KindNote:     reflect.TypeFor[Note](),
	KindMoved:    reflect.TypeFor[Moved](),
	KindChanged:  reflect.TypeFor[Changed](),
	KindFinished: reflect.TypeFor[Finished](),
	KindVoided:   reflect.TypeFor[Voided](),
}

// Encode writes a payload as a JSON object. A payload that is no value of one
// of the payload types is an internal error; a number that no heap can have is
// fault.OutOfRange and a word outside its list fault.NotUnderstood.
func Encode(p Payload) ([]byte, error) {
	if t := reflect.TypeOf(p); t == nil || t.Kind() != reflect.Struct || types[p.Kind()] != t {
		return nil, fmt.Errorf("encode entry: %T is not a payload", p)
	}
	if err := check(p); err != nil {
		return nil, err
	}
	data, err := json.Marshal(p)
	if err != nil {
		return nil, fmt.Errorf("encode %s entry: %w", p.Kind(), err)
	}
	return data, nil
}

// Decode reads what Encode wrote. The kind must be known and the data one JSON
// object whose values Encode would accept; fields that a later version added
// are passed over.
func Decode(k Kind, data []byte) (Payload, error) {
	t, ok := types[k]
	if !ok {
		return nil, fmt.Errorf("decode entry: unknown kind %q", k)
	}
	if !bytes.HasPrefix(bytes.TrimLeft(data, " \t\r\n"), []byte("{")) {
		return nil, fmt.Errorf("decode %s entry: not a JSON object", k)
	}
	v := reflect.New(t)
	if err := json.Unmarshal(data, v.Interface()); err != nil {
		return nil, fmt.Errorf("decode %s entry: %w", k, err)
	}
	p := v.Elem().Interface().(Payload)
	if err := check(p); err != nil {
		return nil, fmt.Errorf("decode %s entry: %w", k, err)
	}
	return p, nil
}
