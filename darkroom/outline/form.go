package outline

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// maxIndex is the largest list index a form may name, so that no input can ask for much memory.
const maxIndex = 200

// FromForm builds a mapping from a form's values by the paths that are their inputs' names: "name",
// "scales[0].unit", "dilutions.RC paper". Values of nothing but white space are left blank. Names that are no
// path come back in bad, in order.
func FromForm(values map[string]string) (root *Node, bad []string) {
	root = &Node{Kind: Mapping, Loose: true}
	for _, name := range slices.Sorted(maps.Keys(values)) {
		steps, ok := steps(name)
		if !ok || !root.put(steps, strings.TrimSpace(values[name])) {
			bad = append(bad, name)
		}
	}
	for _, f := range root.Fields {
		f.Value.prune()
	}
	return root, bad
}

// prune makes blank what holds nothing but blanks, such as a row that nobody filled in; true where n is blank then.
func (n *Node) prune() bool {
	blank := n.Kind != Scalar
	for _, f := range n.Fields {
		blank = f.Value.prune() && blank
	}
	for _, item := range n.Items {
		blank = item.prune() && blank
	}
	if blank {
		n.Kind, n.Fields, n.Items = Empty, nil, nil
	}
	return blank
}

// A step of a path is a key, or an index where key is empty.
type step struct {
	key   string
	index int
}

// steps parts a path.
func steps(path string) ([]step, bool) {
	var out []step
	for part := range strings.SplitSeq(path, ".") {
		key, rest, _ := strings.Cut(part, "[")
		if key == "" {
			return nil, false
		}
		out = append(out, step{key: key})
		if key == part {
			continue
		}
		for index := range strings.SplitSeq(rest, "[") {
			digits, closed := strings.CutSuffix(index, "]")
			i, err := strconv.ParseUint(digits, 10, 16)
			if !closed || err != nil || i > maxIndex {
				return nil, false
			}
			out = append(out, step{index: int(i)})
		}
	}
	return out, len(out) <= MaxDepth
}

// put sets the value at a path below n; false where another value stands in its way.
func (n *Node) put(path []step, text string) bool {
	for _, s := range path {
		if s.key != "" {
			if n.Kind != Empty && n.Kind != Mapping {
				return false
			}
			n.Kind, n.Loose = Mapping, true
			next := n.Get(s.key)
			if !n.has(s.key) {
				n.Set(s.key, next)
			}
			n = next
			continue
		}
		if n.Kind != Empty && n.Kind != List {
			return false
		}
		n.Kind, n.Loose = List, true
		for len(n.Items) <= s.index {
			n.Items = append(n.Items, &Node{})
		}
		n = n.Items[s.index]
	}
	if n.Kind != Empty || n.Loose {
		return false
	}
	if n.Loose = true; text != "" {
		n.Kind, n.Text = Scalar, text
	}
	return true
}

func (n *Node) has(key string) bool {
	return slices.ContainsFunc(n.Fields, func(f Field) bool { return f.Key == key })
}

// Form is the inverse of FromForm: every scalar by its path.
func (n *Node) Form() map[string]string {
	out := map[string]string{}
	n.fill(out, "")
	return out
}

func (n *Node) fill(out map[string]string, path string) {
	if n.Kind == Scalar {
		out[path] = n.Text
	}
	for _, f := range n.Fields {
		f.Value.fill(out, join(path, f.Key))
	}
	for i, item := range n.Items {
		item.fill(out, fmt.Sprintf("%s[%d]", path, i))
	}
}
