package outline

import (
	"strconv"

	"github.com/goccy/go-yaml/token"
)

// guard looks at the tokens before they are parsed: constructs that are refused, and what would cost too much.
func guard(tokens token.Tokens) []Fault {
	g := &guardian{}
	var last *token.Token
	for i, t := range tokens {
		if t.Type == token.CommentType {
			continue
		}
		g.construct(t)
		if t.Type == token.DirectiveType {
			break // its words are no content
		}
		g.document(t)
		if !g.levels(t, last, nextOf(tokens, i)) || len(g.faults) >= maxFaults {
			break
		}
		last = t
	}
	if !g.content && len(g.faults) == 0 {
		g.fault(EmptyFile, Place{1, 1}, "")
	}
	return g.faults
}

type guardian struct {
	faults  []Fault
	content bool // something other than comments and document marks was seen
	ended   bool // a document ended
	blocks  []block
	flow    []int // keys of each open bracket
	blanks  int
}

// A block is an open mapping or list, by its column.
type block struct {
	column int
	list   bool
	keys   int
}

func (g *guardian) fault(kind FaultKind, at Place, found string) {
	g.faults = append(g.faults, Fault{Kind: kind, Place: at, Found: found})
}

// construct refuses what this file has no use for.
func (g *guardian) construct(t *token.Token) {
	switch t.Type {
	case token.AliasType:
		g.fault(Alias, placeOf(t), t.Value)
	case token.AnchorType:
		g.fault(Anchor, placeOf(t), t.Value)
	case token.MergeKeyType:
		g.fault(MergeKey, placeOf(t), t.Value)
	case token.TagType:
		g.fault(Tag, placeOf(t), t.Value)
	case token.DirectiveType:
		g.fault(Directive, placeOf(t), t.Value)
	case token.MappingKeyType:
		g.fault(NoPlainKey, placeOf(t), t.Value)
	default:
	}
}

// document notes where a document begins and ends, and refuses a second one.
func (g *guardian) document(t *token.Token) {
	switch t.Type {
	case token.DocumentHeaderType:
		if g.content || g.ended {
			g.fault(SecondDocument, placeOf(t), "")
		}
		g.ended = false
		g.content = g.content || len(g.faults) > 0
	case token.DocumentEndType:
		g.ended = true
	default:
		if g.ended {
			g.fault(SecondDocument, placeOf(t), "")
			g.ended = false
		}
		g.content = true
	}
}

// levels counts the levels, keys and blanks; false ends the count.
func (g *guardian) levels(t, last, next *token.Token) bool {
	switch t.Type {
	case token.SequenceStartType, token.MappingStartType:
		g.flow = append(g.flow, 0)
	case token.SequenceEndType, token.MappingEndType:
		g.flow = g.flow[:max(len(g.flow)-1, 0)]
	case token.SequenceEntryType:
		g.block(t, true)
		g.blank(next == nil || next.Position.Line > t.Position.Line && next.Position.Column <= t.Position.Column)
	case token.MappingValueType:
		g.key(t, last, next)
	case token.StringType:
		// A lone word between two commas of a mapping is a key with a blank value.
		g.blank(len(g.flow) > 0 && opens(last) && closes(next))
	default:
	}
	switch {
	case len(g.blocks)+len(g.flow) > MaxDepth:
		g.fault(TooDeep, placeOf(t), strconv.Itoa(len(g.blocks)+len(g.flow)))
	case g.blanks > MaxBlanks:
		g.fault(TooManyBlanks, placeOf(t), strconv.Itoa(g.blanks))
	case g.keysHere() > MaxKeys:
		g.fault(TooManyKeys, placeOf(t), strconv.Itoa(g.keysHere()))
	default:
		return true
	}
	return false
}

// key counts a key, which is the token before the colon.
func (g *guardian) key(t, last, next *token.Token) {
	if len(g.flow) > 0 {
		g.flow[len(g.flow)-1]++
		g.blank(closes(next))
		return
	}
	if last == nil {
		last = t
	}
	g.block(last, false)
	g.blank(next == nil || next.Position.Line > t.Position.Line && !belongs(next, last))
}

// block opens or goes on with the block whose column is the token's; deeper ones are closed.
func (g *guardian) block(t *token.Token, list bool) {
	if len(g.flow) > 0 {
		return
	}
	column := t.Position.Column
	for len(g.blocks) > 0 && g.top().column > column {
		g.blocks = g.blocks[:len(g.blocks)-1]
	}
	if len(g.blocks) == 0 || g.top().column < column {
		g.blocks = append(g.blocks, block{column: column, list: list})
	}
	if !list {
		g.top().keys++
	}
}

func (g *guardian) top() *block { return &g.blocks[len(g.blocks)-1] }

func (g *guardian) keysHere() int {
	switch {
	case len(g.flow) > 0:
		return g.flow[len(g.flow)-1]
	case len(g.blocks) > 0:
		return g.top().keys
	}
	return 0
}

func (g *guardian) blank(is bool) {
	if is {
		g.blanks++
	}
}

// belongs reports whether a token on a later line may begin the value of a key: it stands further in, or is an item
// of a list below the key.
func belongs(t, key *token.Token) bool {
	if t.Position.Column == key.Position.Column {
		return t.Type == token.SequenceEntryType
	}
	return t.Position.Column > key.Position.Column
}

func opens(t *token.Token) bool {
	return t != nil && (t.Type == token.CollectEntryType || t.Type == token.MappingStartType)
}

func closes(t *token.Token) bool {
	return t == nil || t.Type == token.CollectEntryType || t.Type == token.MappingEndType ||
		t.Type == token.SequenceEndType
}

func nextOf(tokens token.Tokens, i int) *token.Token {
	for _, t := range tokens[i+1:] {
		if t.Type != token.CommentType {
			return t
		}
	}
	return nil
}
