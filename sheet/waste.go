package sheet

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/draw/scene"
	"wetside/trade/quantity"
	"wetside/words"
)

// Waste writes a year of the waste cans as PDF, for whoever keeps them and whoever signs: each can's entries with what was in it
// at the beginning and the end, what was taken away with which document, the silver that likely went with it, what the
// authority answered, and lines to sign on. No person's name is printed. The error is the writer's, or the document's own.
func Waste(w io.Writer, v *words.Voice, y ahead.WasteYear, f darkroom.File) error {
	s := wasteSheet{setter: newSetter(f.Darkroom.PrintOn, title{f.Darkroom.Name, y.At}, v), year: y}
	s.head(f.Darkroom.Name)
	for i := range y.Cans {
		s.can(&y.Cans[i])
	}
	s.all()
	s.drains()
	s.sign()
	return s.output(w, "waste")
}

type wasteSheet struct {
	*setter
	year ahead.WasteYear
}

// Sizes of the year's sheet: points, and where its columns end or begin, as parts of the width between the margins.
const (
	ledgerPoints = 9.5
	ledgerHead   = 13.0
	ledgerSmall  = 8.0
	dateColumn   = 0.0
	whatColumn   = 0.16
	inColumn     = 0.60 // its right end, as of the next two
	outColumn    = 0.70
	levelColumn  = 0.81
	silverColumn = 1.0
	whatWide     = 0.35
	signHeight   = 24.0
	rowSlack     = 0.7
)

func (s *wasteSheet) head(name string) {
	s.ends(heavy(s.v.Tell("waste_year", "Year", strconv.Itoa(s.year.Year)).Text()), name, namePoints)
	s.y += 2.4
	s.rule()
	s.flow(s.v.PlaceAndDrain(&s.year.Here), ledgerPoints)
	s.flow(s.v.Tell("waste_made_up", "When", s.v.DateYear(s.year.At)), ledgerSmall)
	s.y += 3
}

// at is where a column stands.
func (s *wasteSheet) at(part float64) float64 { return margin + part*s.inner() }

// right sets a text that ends at a column.
func (s *wasteSheet) right(text string, column, y float64, bold bool) {
	s.weigh(bold, ledgerPoints)
	s.doc.Text(s.at(column)-s.doc.GetStringWidth(text), y+lead(ledgerPoints)*0.76, text)
}

// row sets one line of the ledger: what may break, the figures do not.
func (s *wasteSheet) row(date string, what words.Phrase, in, out, level, silver string, bold bool) {
	h := max(lead(ledgerPoints), s.blockHeight(what, ledgerPoints, whatWide*s.inner())) + rowSlack
	s.room(h)
	y := s.y
	s.ink(scene.Ink)
	s.weigh(bold, ledgerPoints)
	s.doc.Text(s.at(dateColumn), y+lead(ledgerPoints)*0.76, date)
	for _, c := range []struct {
		text string
		at   float64
	}{{in, inColumn}, {out, outColumn}, {level, levelColumn}, {silver, silverColumn}} {
		s.right(c.text, c.at, y, bold)
	}
	s.block(what, ledgerPoints, s.at(whatColumn), whatWide*s.inner())
	s.y = y + h
}

func (s *wasteSheet) can(c *ahead.CanYear) {
	s.room(lead(ledgerHead) + 5*lead(ledgerPoints))
	s.y += 2
	holds := ""
	if c.Can.Can.Holds.Given() {
		holds = s.v.Tell("can_takes", "What", s.v.UsedBath(c.Can.Can.Takes), "Holds", s.v.Volume(c.Can.Can.Holds.Value)).Text()
	}
	s.ends(heavy(s.v.CanName(&c.Can.WasteCan)), "", ledgerHead)
	if holds != "" {
		s.flow(plain(capital(holds)), ledgerPoints)
	}
	s.y++
	say := s.v.Label
	s.row("", plain(""), say("ledger_in"), say("ledger_out"), say("ledger_level"), say("ledger_silver"), false)
	s.hair()
	s.row(s.date(s.year.From), plain(say("ledger_began")), "", "", s.volume(c.Began), "", false)
	for i := range c.Rows {
		r := &c.Rows[i]
		in, out, silver := s.volume(r.Volume), "", ""
		if r.Taken != nil {
			in, out, silver = "", in, s.silver(&r.Silver)
		}
		s.row(s.date(r.At), s.v.LedgerWhat(r), in, out, s.volume(r.Level), silver, r.Taken != nil)
	}
	s.hair()
	s.row("", heavy(say("ledger_sum")), s.volume(c.Put), s.volume(c.Taken), s.volume(c.End), "", true)
	s.y += 2
}

func (s *wasteSheet) date(t time.Time) string { return s.v.Day(t.In(s.year.At.Location())) }

func (s *wasteSheet) volume(v quantity.Volume) string {
	if v == 0 {
		return "0"
	}
	return s.v.Volume(v)
}

func (s *wasteSheet) silver(x *ahead.Silver) string {
	if x.Known == 0 {
		return s.v.Label("ledger_unknown")
	}
	return s.v.SilverShort(x)
}

func (s *wasteSheet) hair() {
	s.pen(scene.Mark, 0.2)
	s.doc.Line(margin, s.y, s.width-margin, s.y)
	s.y += 0.8
}

// all adds up all cans, and says what the silver's figures are.
func (s *wasteSheet) all() {
	s.y += 2
	if len(s.year.Cans) != 1 {
		s.flow(s.v.Tell("waste_all", "Put", s.volume(s.year.Put), "Taken", s.volume(s.year.Taken)), ledgerPoints)
	}
	if s.year.Taken > 0 {
		for _, p := range s.v.SilverTaken(&s.year.Fetched) {
			s.flow(p, ledgerPoints)
		}
	}
	if s.year.PartKnown() {
		s.flow(s.v.Tell("waste_plus"), ledgerPoints)
	}
}

// drains is what is done with each kind of bath here, with what the authority answered.
func (s *wasteSheet) drains() {
	s.y += 3
	for i := range s.year.Advice {
		a := &s.year.Advice[i]
		s.flow(s.v.Drain(a), ledgerPoints)
		if a.Answer != nil {
			for _, p := range s.v.DrainWhy(a) {
				s.room(s.blockHeight(p, ledgerPoints, s.inner()-rowIndent))
				s.block(p, ledgerPoints, margin+rowIndent, s.inner()-rowIndent)
			}
		}
	}
}

// sign leaves lines for who kept the cans and who saw the sheet.
func (s *wasteSheet) sign() {
	s.room(signHeight)
	s.y += signHeight - 8
	s.pen(scene.Mark, 0.3)
	half := (s.inner() - gutter) / 2
	for i, label := range []string{"ledger_kept", "ledger_seen"} {
		x := margin + float64(i)*(half+gutter)
		s.doc.Line(x, s.y, x+half, s.y)
		s.size(ledgerSmall, "")
		s.ink(scene.Soft)
		s.doc.Text(x, s.y+4, s.v.Label(label))
	}
	s.y += 8
}

// WasteCSV writes a year of the waste cans as a table: one line an entry, millilitres and grams, the three quantiles of the
// silver that was taken away. Words that a spreadsheet could take for a formula get an apostrophe before them. The error is
// the writer's.
func WasteCSV(w io.Writer, y ahead.WasteYear) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{ // the error stays with the writer until Flush
		"date", "can", "what", "put_in_ml", "taken_ml", "in_can_ml", "silver_g_p10", "silver_g_p50", "silver_g_p90", "silver_unknown_ml",
		"taken_by", "document", "note", "entry",
	})
	for i := range y.Cans {
		for j := range y.Cans[i].Rows {
			_ = out.Write(wasteLine(&y, &y.Cans[i], &y.Cans[i].Rows[j]))
		}
	}
	out.Flush()
	return out.Error()
}

func wasteLine(y *ahead.WasteYear, c *ahead.CanYear, r *ahead.WasteRow) []string {
	ml := func(v quantity.Volume) string { return strconv.FormatFloat(v.ML(), 'f', 0, 64) }
	line := make([]string, 14)
	line[0], line[1], line[2] = r.At.In(y.At.Location()).Format(time.DateOnly), c.Can.Can.Name, r.Of().String()
	line[5], line[13] = ml(r.Level), r.Entry
	if r.In != nil {
		line[3], line[12] = ml(r.Volume), r.In.Why
	} else {
		line[4], line[10], line[11] = ml(r.Volume), r.Taken.By, r.Taken.Document
		if s := &r.Silver; s.Known > 0 {
			for k, g := range []float64{s.Grams.P10, s.Grams.P50, s.Grams.P90} {
				line[6+k] = strconv.FormatFloat(g, 'g', 3, 64)
			}
		}
		line[9] = strconv.FormatFloat(1000*r.Silver.Unknown, 'f', 0, 64)
	}
	for i, cell := range line {
		if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) {
			line[i] = "'" + cell
		}
	}
	return line
}
