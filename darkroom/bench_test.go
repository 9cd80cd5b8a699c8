package darkroom_test

import (
	"os"
	"testing"

	"wetside/darkroom"
)

func BenchmarkRead(b *testing.B) {
	src, err := os.ReadFile("../docs/example.yaml")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	b.SetBytes(int64(len(src)))
	for b.Loop() {
		if _, err := darkroom.Read(src); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	src, err := os.ReadFile("../docs/example.yaml")
	if err != nil {
		b.Fatal(err)
	}
	f, err := darkroom.Read(src)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		darkroom.Write(f)
	}
}
