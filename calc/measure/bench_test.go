package measure

import (
	"strings"
	"testing"
)

func BenchmarkParseItems(b *testing.B) {
	for name, text := range map[string]string{
		"two":    "2 buckets of grass clippings and half a bucket coffee grounds",
		"twenty": strings.Repeat("2-3 heaped buckets of grass clippings, ", 20),
		"noise":  strings.Repeat("and half with ", maxText/14),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = Measures{}.ParseItems(text)
			}
		})
	}
}

func BenchmarkStep(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = Measures{}.Step(30)
	}
}

func BenchmarkSayVolume(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = Measures{}.SayVolume(30)
	}
}
