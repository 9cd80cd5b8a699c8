package darkroom_test

import (
	"os"
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/darkroom"
)

func TestContractSample(t *testing.T) {
	src, err := os.ReadFile("testdata/contract.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f, err := darkroom.Read(src)
	if err != nil {
		t.Fatalf("%#v", err)
	}
	out := darkroom.Write(f)
	t.Logf("%s", out)
	g, err := darkroom.Read(out)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(f, g, comparers()...); d != "" {
		t.Error(d)
	}
}
func comparers() []cmp.Option {
	return []cmp.Option{cmp.Exporter(func(reflect.Type) bool { return true })}
}
