package web

import (
	"errors"
	"net/http"
	"net/url"
	"slices"
	"strconv"

	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/hazard"
	"wetside/words"
)

// safetyPage is the room's safety sheet: what stands here and what it does, what must never meet, the air, first aid.
type safetyPage struct {
	frame
	Tonight, Shelf []safetyProduct
	Never          []words.Phrase
	Reducer        bool
	Wrong          words.Phrase // a product's shares are impossible
	Air, Said      []words.Phrase
	Aid            []plan.Caution
	Yours          []words.Phrase // of whoever joined with this device
	Persons        []personView   // for those who keep the darkroom
	Keeps          bool
	Mine           string     // where what is noted of them is changed
	Others         []spokenIn // the page in other languages, to print it
}

type safetyProduct struct {
	Name, Role, Change string // Change is where its label is told; empty for whoever joined
	At                 string // its place on the page
	Bare               bool   // nothing is declared of it
	How                bool   // its reckoning is shown; of all at once it would be more than a phone likes
	States             []judgedView
}

type judgedView struct {
	words.Judged
	Pictures []scene.Scene
}

type personView struct {
	Name  string
	Notes []words.Phrase
}

// safety shows the room's safety sheet.
func (s *server) safety(r *http.Request, v *visit) error {
	if !v.begun() {
		return v.to(r, "/begin")
	}
	p, err := v.plan(r.Context())
	if err != nil {
		return err
	}
	page := safetyPage{frame: v.frame(r, "safety"), Keeps: v.keeps(), Aid: plan.AidCautions(v.file.Darkroom)}
	page.air(v)
	page.Others = v.languages("/safety", url.Values{})
	report, err := v.judged(r.Context())
	if err != nil {
		page.Wrong = v.wrongShares(err)
		return v.show(http.StatusOK, "safety", &page)
	}
	used := p.Products()
	for i := range v.file.Shelf.Products {
		one := v.safetyProduct(i, report)
		one.How = r.URL.Query().Get("how") == one.At
		if slices.Contains(used, one.Name) {
			page.Tonight = append(page.Tonight, one)
			continue
		}
		page.Shelf = append(page.Shelf, one)
	}
	for _, x := range report.Never {
		page.Never = append(page.Never, v.say.MustNotMeet(x))
	}
	page.Reducer = report.Reducer
	page.Yours = v.yours(report, used)
	if _, known := v.people[v.who.Person]; known && !v.keeps() {
		page.Mine = "/people/" + v.who.Person
	}
	page.Persons = v.persons(report)
	return v.show(http.StatusOK, "safety", &page)
}

// wrongShares says which product's shares are impossible.
func (v *visit) wrongShares(err error) words.Phrase {
	if e, ok := errors.AsType[*hazard.MixtureError](err); ok {
		return v.say.MixtureError(e)
	}
	return v.say.Tell("hazard.not_judged_all")
}

func (v *visit) safetyProduct(i int, report hazards.Report) safetyProduct {
	x := &v.file.Shelf.Products[i]
	out := safetyProduct{Name: x.Name, Role: v.say.Role(x.Role), Bare: len(x.Contains) == 0, At: "p" + strconv.Itoa(i+1)}
	if v.keeps() {
		out.Change = "/shelf/product/" + v.ids.Products[i]
	}
	for _, item := range report.Among([]string{x.Name}) {
		one := judgedView{Judged: v.say.Judged(item)}
		for _, code := range one.Pictograms {
			if pic, err := (draw.Pictogram{Code: code, Say: code + " " + v.say.Pictogram(code)}).Scene(v.form()); err == nil {
				one.Pictures = append(one.Pictures, pic)
			}
		}
		out.States = append(out.States, one)
	}
	return out
}

// air says what is done about it, and what was published on how much of it.
func (p *safetyPage) air(v *visit) {
	p.Air = []words.Phrase{
		v.say.Tell("air.low"), v.say.Tell("air.lids", "From", v.say.SourceTitle("Seigel")), v.say.Tell("air.drain"), v.say.Tell("air.odourless"),
		v.say.Tell("air.leaning"),
	}
	for _, a := range hazard.AirPublished() {
		p.Said = append(p.Said, v.say.AirSaid(a))
	}
}

// yours are the cautions for whoever joined with the device, at some products; in a school everybody who joins is a pupil.
func (v *visit) yours(report hazards.Report, products []string) []words.Phrase {
	if v.keeps() {
		return nil
	}
	who := hazard.ReadPerson(v.people[v.who.Person].Notes)
	who.Under18 = who.Under18 || v.file.Darkroom.Place == darkroom.School
	return v.personal(hazards.ForPerson(report.Among(products), who, false))
}

// yoursAt are the same at some products, nothing where nothing is known of whoever joined.
func (v *visit) yoursAt(products ...string) []words.Phrase {
	if v.keeps() || len(v.people[v.who.Person].Notes) == 0 && v.file.Darkroom.Place != darkroom.School {
		return nil
	}
	report, err := hazards.Of(v.file)
	if err != nil {
		return nil
	}
	return v.yours(report, products)
}

func (v *visit) personal(all []hazards.Personal) []words.Phrase {
	var out []words.Phrase
	for _, p := range all {
		out = append(out, v.say.Personal(p))
	}
	return out
}

// persons are those of whom something is noted that raises the caution, for those who keep the darkroom alone. Whoever mixes meets
// concentrates and powders, too.
func (v *visit) persons(report hazards.Report) []personView {
	if !v.keeps() {
		return nil
	}
	var out []personView
	for _, id := range v.noted() {
		notes := v.personal(hazards.ForPerson(report.Items, hazard.ReadPerson(v.people[id].Notes), v.mixes(id)))
		if len(notes) > 0 {
			out = append(out, personView{v.called(id), notes})
		}
	}
	return out
}

// mixers are the cautions for those who mix, at some products, for those who keep the darkroom alone: the doubtful, of what can't be
// judged, or those that are certain.
func (v *visit) mixers(doubtful bool, products ...string) []personView {
	if !v.keeps() || len(v.noted()) == 0 {
		return nil
	}
	report, err := hazards.Of(v.file)
	if err != nil {
		return nil
	}
	var out []personView
	for _, id := range v.noted() {
		if !v.mixes(id) {
			continue
		}
		all := hazards.ForPerson(report.Among(products), hazard.ReadPerson(v.people[id].Notes), true)
		all = slices.DeleteFunc(all, func(p hazards.Personal) bool { return (p.Caution.Kind == hazard.AskFirst) != doubtful })
		if len(all) > 0 {
			out = append(out, personView{v.called(id), v.personal(all)})
		}
	}
	return out
}

// noted are the ids of those of whom a note is kept, in their order.
func (v *visit) noted() []string {
	var out []string
	for id, p := range v.people {
		if len(p.Notes) > 0 {
			out = append(out, id)
		}
	}
	slices.Sort(out)
	return out
}

// mixes tells whether somebody mixes: of the room's own people those who do, or of whom nothing is said.
func (v *visit) mixes(id string) bool {
	i := slices.Index(v.ids.People, id)
	return i >= 0 && (len(v.file.People[i].Does) == 0 || slices.Contains(v.file.People[i].Does, "mixes"))
}
