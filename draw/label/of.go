package label

import (
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/dilution"
	"wetside/trade/hazard/ghs"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"
)

// Told is what the book and the house add to a label.
type Told struct {
	By      string // the name of who mixed it; its initials alone are printed
	Whose   string // the name of whose it is, in full; empty: the room's
	Address string // of its page, with the machine's; empty for none
}

// OfBath returns the label of a bath with what is coming for it; f is the room's file. The error wraps hazard.ErrMixture: the
// file declares shares that can't be.
func OfBath(v *words.Voice, o *ahead.Outlook, f darkroom.File, told Told) (Label, error) {
	b := &o.Bath
	l := Label{Title: capital(v.BathCalled(*b)), About: about(v, b), For: serves(v, b), Address: told.Address}
	if o.OutOfUse() {
		l.Alarm = v.Tell("on_label.out").Text()
	}
	l.Fields = []Field{
		{Name: v.Label("label_mixed"), Value: v.MadeOn(*b)},
		{Name: v.Label("label_by"), Value: words.Initials(told.By)},
		{Name: v.Label("label_opened"), Later: true},
		{Name: v.Label("label_discard"), Value: v.KeepsUntil(*o), Heavy: true},
	}
	if told.Whose != "" {
		l.Fields = append([]Field{{Name: v.Label("whose"), Value: v.Owner(told.Whose), Heavy: true}}, l.Fields...)
	}
	volume := bathVolume(b)
	if b.Product != nil {
		judged, err := hazards.OfBath(f, b.Product, b.Dilution)
		if err != nil {
			return Label{}, err
		}
		l.hazards(v, judged)
	}
	l.sized(volume)
	l.Spent = spent(v, b.Role, f)
	l.Say = Say{Code: v.Label("label_code"), Tally: v.Label("label_tally")}
	l.Say.Label = v.Tell("on_label.picture", "Bath", l.Title).Text()
	return l, nil
}

// OfLot returns the label of a bottle or a packet that is somebody's, of product p. Its errors are those of OfBath.
func OfLot(v *words.Voice, lot darkroom.Lot, p *darkroom.Product, f darkroom.File, told Told) (Label, error) {
	l := Label{Title: lot.Product, About: lot.Holds.Text, Address: told.Address}
	switch {
	case lot.Packets > 0:
		l.About = v.Count("packets", lot.Packets)
	case lot.Stock:
		l.About = strings.TrimSpace(v.Label("stock") + " " + l.About)
	}
	day := func(name string, at darkroom.As[time.Time]) Field {
		field := Field{Name: v.Label(name), Later: !at.Given()}
		if at.Given() {
			field.Value = v.DayYear(at.Value)
		}
		return field
	}
	l.Fields = []Field{{Name: v.Label("whose"), Value: v.Owner(told.Whose), Heavy: true}}
	if lot.Stock {
		l.Fields = append(l.Fields, day("made", lot.Made))
	} else {
		l.Fields = append(l.Fields, day("received", lot.Received), day("opened", lot.Opened))
	}
	judged, err := hazards.OfBath(f, p, dilution.Dilution{})
	if err != nil {
		return Label{}, err
	}
	l.hazards(v, judged)
	l.sized(lot.Holds.Value)
	l.Spent = spent(v, p.Role, f)
	l.Say = Say{Code: v.Label("label_code_shelf"), Label: v.Tell("on_label.picture", "Bath", l.Title).Text()}
	return l, nil
}

// OfCan returns the label of a waste can. Its errors are those of OfBath.
func OfCan(v *words.Voice, c darkroom.Can, f darkroom.File, told Told) (Label, error) {
	l := Label{Title: v.Tell("on_label.used", "Role", v.Role(c.Takes)).Text(), About: c.Name, Address: told.Address}
	if c.Takes == process.NoRole {
		l.Title = capital(v.Label("label_waste"))
	}
	if c.Holds.Value > 0 {
		l.About += dot + v.Volume(c.Holds.Value)
	}
	l.Fields = []Field{{Name: v.Label("label_begun")}, {Name: v.Label("label_full")}, {Name: v.Label("label_collects")}, {Name: v.Label("label_collected"), Later: true}}
	judged, err := hazards.OfCan(f, c.Takes)
	if err != nil {
		return Label{}, err
	}
	l.hazards(v, judged)
	l.sized(c.Holds.Value)
	l.Spent = v.Tell("on_label.can").Text()
	l.Say = Say{Code: v.Label("label_code_can"), Tally: v.Label("label_litres"), Label: v.Tell("on_label.picture", "Bath", c.Name).Text()}
	return l, nil
}

// dot stands between parts of a line, on the earlier part's line.
const dot = "\u00a0· "

// about is the product with its strength and how much of it there is.
func about(v *words.Voice, b *ahead.Bath) string {
	var parts []string
	if b.Product != nil {
		parts = append(parts, b.Product.Name)
	}
	if b.Words != "" {
		parts = append(parts, b.Words)
	}
	if volume := bathVolume(b); volume > 0 {
		parts = append(parts, v.Volume(volume))
	}
	return strings.Join(parts, dot)
}

func bathVolume(b *ahead.Bath) quantity.Volume {
	volume, err := quantity.VolumeOfML(1000 * b.Litres)
	if err != nil {
		return 0
	}
	return volume
}

// serves says for what a bath is and where it stands.
func serves(v *words.Voice, b *ahead.Bath) string {
	var parts []string
	switch {
	case b.Film && !b.Paper:
		parts = append(parts, v.Label("label_film"))
	case b.Paper && !b.Film:
		parts = append(parts, v.Label("label_paper"))
	}
	if where := b.Tray + b.Tank; where != "" {
		parts = append(parts, where)
	}
	return strings.Join(parts, dot)
}

// hazards sets pictograms, signal word and statements, and what could not be judged.
func (l *Label) hazards(v *words.Voice, h hazards.Labelled) {
	for _, code := range h.Pictograms {
		l.Signs = append(l.Signs, Sign{Code: code, Name: v.Pictogram(code)})
	}
	l.Signal = v.Signal(h.Signal)
	for _, code := range h.Codes {
		l.Hazard = append(l.Hazard, v.Statement(code, h.Elicits))
	}
	for _, code := range h.P {
		l.Advice = append(l.Advice, v.Statement(code, nil))
	}
	switch {
	case len(h.Bought) > 0:
		l.Notes = append(l.Notes, v.Tell("on_label.bought", "Codes", strings.Join(h.Bought, ", ")).Text())
	case h.NotJudged:
		l.Notes = append(l.Notes, v.Tell("on_label.not_judged").Text())
	case len(h.Codes) > 0:
		l.Notes = append(l.Notes, v.Tell("on_label.estimate").Text())
	default:
		l.Notes = append(l.Notes, v.Tell("on_label.none").Text())
	}
	if h.Extreme {
		l.Notes = append(l.Notes, v.Tell("on_label.ph").Text())
	}
}

// sized asks for pictograms as large as a package of that volume wants.
func (l *Label) sized(volume quantity.Volume) {
	s := ghs.SizeFor(volume)
	l.Side, l.Wished, l.Wants = s.Side, s.Wished, Size{Wide: s.Wide, High: s.High}
}

// spent says where a bath goes: what is collected in which can, all else as the authority says.
func spent(v *words.Voice, r process.Role, f darkroom.File) string {
	can := ""
	if i := slices.IndexFunc(f.Bench.Cans, func(c darkroom.Can) bool { return c.Takes == r && r != process.NoRole }); i >= 0 {
		can = f.Bench.Cans[i].Name
	}
	switch {
	case r == process.Fixer:
		return v.Tell("on_label.spent_fixer", "Can", can).Text()
	case can != "":
		return v.Tell("on_label.spent_can", "Can", can).Text()
	case f.Darkroom.Drain == darkroom.Septic:
		return v.Tell("on_label.spent_septic").Text()
	}
	return v.Tell("on_label.spent_other").Text()
}

// capital begins a text with a capital.
func capital(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}
