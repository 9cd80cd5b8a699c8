package sheet

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"wetside/darkroom"
	"wetside/plan"
	"wetside/sheet/face"
	"wetside/words"
)

const (
	family = "Liberation Sans"
	margin = 12.0
)

// Mix writes the mix sheet of a plan as PDF. The paper is the room's own (Letter, else A4); f is the file that the plan
// was made from. The error is the writer's, or the document's own.
func Mix(w io.Writer, v *words.Voice, p plan.Plan, f darkroom.File) error {
	s := newSetter(f.Darkroom.PrintOn, title{p.Name, p.Starts}, v)
	m := mixSheet{setter: s, plan: p, file: f}
	m.head()
	m.warnings()
	m.dayBefore()
	m.baths()
	m.chains()
	m.cost()
	m.figures()
	return s.output(w, "mix sheet")
}

// output writes the document; what names it in the error.
func (s *setter) output(w io.Writer, what string) error {
	if err := s.doc.Error(); err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	if err := s.doc.Output(w); err != nil {
		return fmt.Errorf("%s: %w", what, err)
	}
	return nil
}

// A title is what a document is called: the room's name, and the moment that it holds for.
type title struct {
	name string
	at   time.Time
}

// newDocument returns an empty document of one paper size with the faces in it and nothing of the clock.
func newDocument(paper string, t title) *fpdf.Fpdf {
	size := "A4"
	if paper == "Letter" {
		size = "Letter"
	}
	doc := fpdf.New("P", "mm", size, "")
	prepare(doc, t)
	return doc
}

// prepare sets what all documents have alike.
func prepare(doc *fpdf.Fpdf, t title) {
	doc.SetCatalogSort(true)
	doc.SetCreationDate(t.at.UTC())
	doc.SetModificationDate(t.at.UTC())
	doc.SetTitle(t.name, true)
	doc.SetCreator("wetside", true)
	doc.SetMargins(margin, margin, margin)
	doc.SetAutoPageBreak(false, 0)
	doc.AddUTF8FontFromBytes(family, "", face.Regular())
	doc.AddUTF8FontFromBytes(family, "B", face.Bold())
}
