package chart

import "testing"

// The target is 60 ms for a chart of six weeks with its outlook.
func BenchmarkPNG(b *testing.B) {
	d := northBay(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := PNG(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkText(b *testing.B) {
	d := northBay(b)
	b.ReportAllocs()
	for b.Loop() {
		if Text(d, maxWidth) == nothing {
			b.Fatal("nothing drawn")
		}
	}
}

func BenchmarkAlt(b *testing.B) {
	d := northBay(b)
	b.ReportAllocs()
	for b.Loop() {
		if Alt(d) == nothing {
			b.Fatal("nothing said")
		}
	}
}
