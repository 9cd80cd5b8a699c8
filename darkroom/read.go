package darkroom

import (
	"fmt"
	"io"

	"wetside/darkroom/outline"
)

// Read reads a darkroom file. All mistakes are told at once: the error is of type Problems, sorted by place, and
// the file is then the zero File.
func Read(src []byte) (File, error) {
	root, faults := outline.Parse(src)
	if root == nil {
		return File{}, ofFaults(faults)
	}
	f, problems := readRoot(root)
	problems = append(problems, ofFaults(faults)...).sorted()
	if len(problems) > 0 {
		return File{}, problems
	}
	return f, nil
}

// ReadFrom is Read for a stream. It stops reading one byte past outline.MaxBytes, so a file of any size costs no
// more. The error is of type Problems, or the stream's own.
func ReadFrom(r io.Reader) (File, error) {
	src, err := io.ReadAll(io.LimitReader(r, outline.MaxBytes+1))
	if err != nil {
		return File{}, fmt.Errorf("reading a darkroom file: %w", err)
	}
	return Read(src)
}

// readRoot reads the nodes of a file. What an ounce is counts for the whole file, wherever it stands, so it is
// read first.
func readRoot(root *node) (File, Problems) {
	r := &reader{}
	if at := root.Get("darkroom").Get("ounce"); at.Kind == outline.Scalar {
		r.ounce, _ = word("ounce", ounces()).parse(r, at.Text)
	}
	f := fileKind().read(r, root)
	return f, r.problems
}
