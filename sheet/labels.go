package sheet

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"wetside/draw/label"
	"wetside/draw/scene"
)

// Labels writes labels as PDF on a stock, beginning at the place start of the first sheet, counted from 1 along the rows, so that
// a part-used sheet serves. Every label is set as large as it fits. The error wraps label.ErrSmall where one does not fit; it is the
// writer's or the document's own otherwise. at is the document's date.
func Labels(w io.Writer, all []label.Label, on label.Stock, start int, at time.Time) error {
	var scenes []scene.Scene
	for _, l := range all {
		fitted, err := l.Printable().Fit(on.Label, scene.Light)
		if err != nil {
			return fmt.Errorf("%s: %w", l.Title, err)
		}
		scenes = append(scenes, fitted.Scene)
	}
	doc := labelPaper(on, title{"labels", at})
	place := min(max(start, 1), on.On()) - 1
	for i, s := range scenes {
		if i == 0 || place == on.On() {
			doc.AddPage()
		}
		if place == on.On() {
			place = 0
		}
		s.PDF(doc, scene.Place{
			X: on.Left + float64(place%max(on.Columns, 1))*on.Across, Y: on.Top + float64(place/max(on.Columns, 1))*on.Down, Width: on.Label.Wide,
		}, family)
		place++
	}
	set := setter{doc: doc}
	return set.output(w, "labels")
}

// labelPaper is the sheet that labels stand on, or a page as large as one label of a roll.
func labelPaper(on label.Stock, t title) *fpdf.Fpdf {
	if on.Paper != "" {
		return newDocument(on.Paper, t)
	}
	doc := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: on.Label.Wide, Ht: on.Label.High}})
	prepare(doc, t)
	return doc
}
