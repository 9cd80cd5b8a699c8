package darkroom_test

import (
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"wetside/darkroom"
)

// FuzzRead holds that no text makes the reader panic, that a mistake leaves the zero file, and that what could be
// read is written so that it reads the same.
func FuzzRead(f *testing.F) {
	var seeds int
	for _, pattern := range []string{"testdata/contract.yaml", "testdata/bad/*.yaml", "../docs/example.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for _, file := range files {
			src, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(src)
			seeds++
		}
	}
	if seeds < 60 {
		f.Fatalf("%d seeds, want at least 60", seeds)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) > 16<<10 {
			return // they have their own test
		}
		got, err := darkroom.Read(src)
		if err == nil {
			roundTrip(t, got)
			return
		}
		if !reflect.DeepEqual(got, darkroom.File{}) {
			t.Errorf("a mistake leaves a file: %v", err)
		}
		for _, p := range err.(darkroom.Problems) { //nolint:errorlint // Read promises the type itself
			if p.Kind == "" || p.Message() == "" {
				t.Errorf("a problem says nothing: %#v", p)
			}
		}
	})
}
