package face_test

import (
	"bytes"
	"flag"
	"testing"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"

	"wetside/internal/packed"
	"wetside/sheet/face"
)

var update = flag.Bool("update", false, "pack the faces anew")

// What is unpacked is what the module of the faces has.
func TestFaces(t *testing.T) {
	packed.Hold(t, "regular.ttf.gz", liberationsansregular.TTF, *update)
	packed.Hold(t, "bold.ttf.gz", liberationsansbold.TTF, *update)
	if !*update && (!bytes.Equal(face.Regular(), liberationsansregular.TTF) || !bytes.Equal(face.Bold(), liberationsansbold.TTF)) {
		t.Error("regular and bold are not the module's")
	}
}
