package facts

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"

	"wetside/darkroom/hazards"
	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
	"wetside/trade/reckoning"
)

// Hazards is what `wetside hazards --json` prints.
type Hazards struct {
	Items         []HazardItem `json:"items"`
	NeverTogether []Never      `json:"never_together"`
}

// HazardItem is one judgement: what `wetside classify --json` prints.
type HazardItem struct {
	Product    string      `json:"product"`
	State      string      `json:"state"`
	Dilution   string      `json:"dilution"`
	Classes    []string    `json:"classes"`
	H          []string    `json:"h"`
	P          []string    `json:"p"`
	Pictograms []string    `json:"pictograms"`
	Signal     string      `json:"signal"`
	PHRule     PHRule      `json:"ph_rule"`
	NotJudged  []NotJudged `json:"not_judged"`
	Estimate   bool        `json:"estimate"`
	Reckoning  []Reckoning `json:"reckoning"`

	Law string `json:"law"`
	// Named are the substances of EUH208.
	Named []string `json:"euh208_names,omitempty"`
	// ClassesMilderEnd are those at the other end of the shares.
	ClassesMilderEnd []string `json:"classes_milder_end"`
	// OtherLaw is given where another law's codes differ.
	OtherLaw *OtherLaw       `json:"other_law,omitempty"`
	Gloves   string          `json:"gloves"`
	LabelH   []string        `json:"label_h,omitempty"`
	Findings []HazardFinding `json:"findings"`
}

// PHRule is the pH beside the classes.
type PHRule struct {
	PH         *float64 `json:"ph"`
	WouldBe    string   `json:"would_be"`
	Note       string   `json:"note"`
	Indicative bool     `json:"indicative,omitempty"`
}

// NotJudged is what the table does not know, or has no share: then it may be all of it.
type NotJudged struct {
	Substance    string     `json:"substance"`
	SharePercent [2]float64 `json:"share_percent"`
}

// OtherLaw is what another law gives.
type OtherLaw struct {
	Law string   `json:"law"`
	H   []string `json:"h"`
}

// HazardFinding is one thing found about a judgement.
type HazardFinding struct {
	Kind      string  `json:"kind"`
	Substance string  `json:"substance,omitempty"`
	Code      string  `json:"code,omitempty"`
	About     string  `json:"about,omitempty"`
	Percent   float64 `json:"percent,omitempty"`
}

// Never is a pair that must not meet.
type Never struct {
	A      string `json:"a"`
	B      string `json:"b"`
	Effect string `json:"effect"`
	Source string `json:"source"`
}

// OfHazards takes a shelf's judgement apart.
func OfHazards(r hazards.Report) Hazards {
	out := Hazards{Items: []HazardItem{}, NeverTogether: nevers(r.Never)}
	for _, i := range r.Items {
		item := OfHazard(i.Result)
		item.Product, item.Dilution, item.LabelH = i.Product, i.Dilution, i.Label
		out.Items = append(out.Items, item)
	}
	return out
}

// nevers are pairs that must not meet, never null.
func nevers(pairs []meet.Pair) []Never {
	out := []Never{}
	for _, p := range pairs {
		source := p.Source
		if source == "" {
			source = origin(p.Origin)
		}
		out = append(out, Never{p.A, p.B, string(p.Effect), source})
	}
	return out
}

// OfHazard takes one judgement apart.
func OfHazard(r hazard.Result) HazardItem {
	gloves, _ := r.Gloves()
	out := HazardItem{
		State: string(r.State), Law: string(r.Law), Estimate: true, Classes: classNames(r.Classes), ClassesMilderEnd: classNames(r.Milder),
		H: list(r.Codes), P: list(r.P), Pictograms: list(r.Pictograms), Signal: string(r.Signal), Named: r.Elicits, Gloves: string(gloves),
		PHRule: ofPHRule(r.PHRule), NotJudged: []NotJudged{}, Findings: []HazardFinding{}, Reckoning: []Reckoning{},
	}
	for _, i := range r.NotJudged {
		out.NotJudged = append(out.NotJudged, NotJudged{i.Name, [2]float64{i.Share.Low, i.Share.High}})
	}
	if r.Otherwise.Law != "" {
		out.OtherLaw = &OtherLaw{string(r.Otherwise.Law), list(r.Otherwise.Codes)}
	}
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, HazardFinding{string(f.Kind), f.Substance, f.Code, f.Key, f.Percent})
	}
	for _, rs := range [][]reckoning.Reckoning{r.Reckoning, r.PHRule.Reckoning} {
		for _, x := range rs {
			out.Reckoning = append(out.Reckoning, OfReckoning(x))
		}
	}
	return out
}

func ofPHRule(r hazard.PHRule) PHRule {
	out := PHRule{Note: phNote(r.Note), Indicative: r.Indicative}
	if r.Known {
		ph := math.Round(r.PH*100) / 100
		out.PH = &ph
	}
	if r.WouldBe != ghs.None {
		out.WouldBe = r.WouldBe.String() + " " + r.WouldBe.Code()
	}
	return out
}

// phNote is the note in words that do not change.
func phNote(n hazard.PHNote) string {
	switch n {
	case hazard.SeeSheet:
		return "see the supplier's sheet"
	case hazard.Within:
		return "within"
	case hazard.Declared:
		return "within, of what is declared alone"
	case hazard.DryMatter:
		return "dry"
	case hazard.NoPH:
	}
	return "unknown"
}

// classNames names classes, each once: the routes of an acute toxicity differ in their codes alone.
func classNames(cs []ghs.Class) []string {
	out := []string{}
	for i, c := range cs {
		if i == 0 || c.String() != cs[i-1].String() {
			out = append(out, c.String())
		}
	}
	return out
}

// list is never null.
func list(texts []string) []string { return append([]string{}, texts...) }

// maxMixture is how long a mixture is that is read, in bytes.
const maxMixture = 1 << 20

// ErrNotMixture is returned by ReadMixture for what is no object as it is described there.
var ErrNotMixture = errors.New("not a mixture")

// A MixtureRead is a mixture as it was asked about.
type MixtureRead struct {
	Mixture  hazard.Mixture
	Product  string
	Dilution string
}

// ReadMixture reads one JSON object: {"ingredients": [{"substance": "acetic acid", "share_percent": [25, 28]}]}. A share is a number, or
// a list of one or two; without one the substance is not judged. Beside it "product", "state" (of the five), "dilution" in a
// label's words and "density_g_per_ml", and "ph" may be given. Errors are ErrNotMixture with what is wrong, one of a dilution's,
// or a *hazard.MixtureError.
func ReadMixture(in io.Reader) (MixtureRead, error) {
	text, err := io.ReadAll(io.LimitReader(in, maxMixture+1))
	if err != nil {
		return MixtureRead{}, err
	}
	if len(text) > maxMixture {
		return MixtureRead{}, fmt.Errorf("%w: longer than 1 MiB", ErrNotMixture)
	}
	var asked struct {
		Product     string       `json:"product"`
		State       string       `json:"state"`
		Dilution    string       `json:"dilution"`
		Density     float64      `json:"density_g_per_ml"`
		PH          *float64     `json:"ph"`
		Ingredients []ingredient `json:"ingredients"`
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&asked); err != nil {
		return MixtureRead{}, notMixture(err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return MixtureRead{}, fmt.Errorf("%w: something stands behind the object", ErrNotMixture)
	}
	out := MixtureRead{Product: asked.Product, Mixture: hazard.Mixture{State: hazard.State(asked.State)}}
	switch out.Mixture.State {
	case "", hazard.Concentrate, hazard.Powder, hazard.Stock, hazard.Working, hazard.Used:
	default:
		return MixtureRead{}, fmt.Errorf("%w: state %q is none of concentrate, powder, stock, working, used", ErrNotMixture, asked.State)
	}
	if asked.PH != nil {
		out.Mixture.PH, out.Mixture.PHKnown = *asked.PH, true
	}
	for _, i := range asked.Ingredients {
		read := hazard.Ingredient{Name: strings.TrimSpace(i.Substance), Open: i.Share == nil}
		if i.Share != nil {
			read.Share = hazard.Share(*i.Share)
		}
		out.Mixture.Ingredients = append(out.Mixture.Ingredients, read)
	}
	return out, out.thin(asked.Dilution, asked.Density)
}

// thin dilutes what is declared of a concentrate.
func (m *MixtureRead) thin(words string, density float64) error {
	if words == "" {
		return nil
	}
	if density < 0 || density > 5 {
		return fmt.Errorf("%w: density_g_per_ml is from 0 to 5", ErrNotMixture)
	}
	d, err := dilution.Read(words, dilution.Options{})
	if err != nil {
		return err
	}
	if _, err := hazard.Classify(m.Mixture); err != nil { // its shares, before they are thinned
		return err
	}
	m.Dilution = d.String()
	if m.Mixture.State == "" {
		m.Mixture.State = hazard.Working
	}
	m.Mixture.Ingredients, err = hazard.Dilute(m.Mixture.Ingredients, d, density)
	return err
}

// notMixture tells what the decoder did not like.
func notMixture(err error) error {
	if errors.Is(err, io.EOF) {
		return fmt.Errorf("%w: nothing was given", ErrNotMixture)
	}
	return fmt.Errorf("%w: %s", ErrNotMixture, strings.TrimPrefix(err.Error(), "json: "))
}

type ingredient struct {
	Substance string `json:"substance"`
	Share     *share `json:"share_percent"`
}

// A share is a number, or a list of one or two.
type share hazard.Share

// UnmarshalJSON reads a share.
func (s *share) UnmarshalJSON(text []byte) error {
	var one float64
	if err := json.Unmarshal(text, &one); err == nil {
		*s = share{one, one}
		return nil
	}
	var ends []*float64
	if err := json.Unmarshal(text, &ends); err != nil {
		return fmt.Errorf("share_percent %s is no number and no list of one or two", text)
	}
	if len(ends) < 1 || len(ends) > 2 || ends[0] == nil || ends[len(ends)-1] == nil {
		return fmt.Errorf("share_percent %s is no number and no list of one or two", text)
	}
	*s = share{*ends[0], *ends[len(ends)-1]}
	return nil
}
