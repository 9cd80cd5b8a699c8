package face_test

import (
	"bytes"
	"compress/gzip"
	"flag"
	"os"
	"testing"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"

	"wetside/sheet/face"
)

var update = flag.Bool("update", false, "pack the faces anew")

// What is unpacked is what the module of the faces has.
func TestFaces(t *testing.T) {
	for _, f := range []struct {
		name string
		ttf  []byte
		got  func() []byte
	}{{"regular.ttf.gz", liberationsansregular.TTF, face.Regular}, {"bold.ttf.gz", liberationsansbold.TTF, face.Bold}} {
		if *update {
			pack(t, f.name, f.ttf)
		} else if !bytes.Equal(f.got(), f.ttf) {
			t.Errorf("%s is not the module's: go generate ./sheet/face", f.name)
		}
	}
}

func pack(t *testing.T, name string, ttf []byte) {
	t.Helper()
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err == nil {
		_, err = w.Write(ttf)
	}
	if err == nil {
		err = w.Close()
	}
	if err == nil {
		err = os.WriteFile(name, out.Bytes(), 0o644)
	}
	if err != nil {
		t.Fatal(err)
	}
}
