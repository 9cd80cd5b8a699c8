package web

import (
	"net/http"
	"slices"
	"strings"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/waste"
	"wetside/words"
)

// actsView is what can be done with a bath.
type actsView struct {
	May      bool // whoever asks may do it
	TopUp    field
	Bottled  bool  // it is in a bottle: it can be poured out again
	Trays    []tap // where to
	Ways     []tap // how it goes: collected, drain
	Forward  string
	Position int64
}

func (v *visit) acts(b *book.Bath) actsView {
	if !v.mayChange(b.Mixed.Whose) {
		return actsView{}
	}
	a := actsView{May: true, Position: v.state.Position(), TopUp: field{Name: "poured", Label: v.say.Label("how_much"), Example: "500 mL"}}
	switch b.In().State {
	case darkroom.FullBottle, darkroom.PartBottle, darkroom.FloatingLid:
		a.Bottled = true
	default:
	}
	for i, t := range v.file.Bench.Trays {
		if i < len(v.ids.Trays) {
			a.Trays = append(a.Trays, tap{Text: t.Name, Value: "tray " + v.ids.Trays[i]})
		}
	}
	for i, t := range v.file.Bench.Tanks {
		if i < len(v.ids.Tanks) {
			a.Trays = append(a.Trays, tap{Text: t.Name, Value: "tank " + v.ids.Tanks[i]})
		}
	}
	a.Ways = v.waysOut(b)
	if p := b.Pair; p != nil && p.First != "" && p.Second != "" && (p.First == b.ID || p.Second == b.ID) {
		a.Forward = bathPath(b.ID) + "/forward"
	}
	return a
}

// What a bath can go to, as the forms send it, beside book.ToCollected.
const (
	toDrain = "drain"
	toHome  = "home" // whose it is took it along
	toElse  = "away" // somebody took it along, or it was poured where nobody wrote down
)

// waysOut is how a bath may go: into its can; down the drain where that is asked of the authority, and never for used fixer and
// toners. Where nothing goes down this drain, that it went otherwise can still be written down.
func (v *visit) waysOut(b *book.Bath) []tap {
	product, _ := v.state.Product(b.Mixed.Product)
	drain := tap{Text: v.say.Label("to_drain"), Value: toDrain}
	if product.Role == process.NoRole { // water
		return []tap{drain}
	}
	if b.Mixed.Whose != "" { // own chemistry is carried home
		home := tap{Text: v.say.Label("to_home"), Value: toHome}
		return append([]tap{home}, v.waysToWaste(b, product.Role, drain)...)
	}
	return v.waysToWaste(b, product.Role, drain)
}

// waysToWaste is how a bath of a role may be done away with here.
func (v *visit) waysToWaste(b *book.Bath, role process.Role, drain tap) []tap {
	collected := tap{Text: v.say.Label("to_collected"), Value: book.ToCollected}
	if can := v.canFor(b); can.ID != "" {
		collected.Text = v.say.Tell("into_can", "Can", can.Can.Name).Text()
	}
	here := ahead.Here(v.state, v.s.Now())
	switch here.Advise(role).Way {
	case waste.AskFirst, waste.AsAnswered:
		return []tap{collected, drain}
	case waste.KeepAndAsk:
		return []tap{collected, {Text: v.say.Label("to_away"), Value: toElse}}
	case waste.Collect:
	}
	return []tap{collected}
}

// toppedUp writes down that something was poured into a bath.
func (s *server) toppedUp(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there {
		return errNotFound
	}
	form, err := formOf(r)
	if err != nil {
		return err
	}
	body := &book.ToppedUp{Bath: b.ID, With: book.WithFresh, Volume: form["poured"], Ounce: book.OunceOf(v.file.Darkroom.Ounce)}
	if form["with"] == string(book.WithWater) {
		body.With = book.WithWater
	}
	vol, err := quantity.ReadVolume(body.Volume, v.file.Darkroom.Ounce)
	if err == nil && vol <= 0 {
		err = quantity.NewReadError(body.Volume, 0, "volume", quantity.WhyNotPositive)
	}
	if err != nil {
		return v.bathProblem(r, func(p *bathPage) {
			p.Acts.TopUp.Value, p.Acts.TopUp.Problem = form["poured"], v.say.ReadError(err).Text()
		})
	}
	return v.write(r, b.ID, body, false)
}

// pouredBack writes down that a bath went into a bottle.
func (s *server) pouredBack(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there {
		return errNotFound
	}
	into := darkroom.State(r.PostFormValue("into"))
	if into != darkroom.FullBottle && into != darkroom.PartBottle && into != darkroom.FloatingLid {
		return errNotFound
	}
	return v.write(r, b.ID, &book.PouredBack{Bath: b.ID, Into: into}, false)
}

// pouredOut writes down that a bath went into a tray or tank again.
func (s *server) pouredOut(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there {
		return errNotFound
	}
	kind, id, _ := strings.Cut(r.PostFormValue("to"), " ")
	body := &book.PouredOut{Bath: b.ID}
	switch {
	case kind == "tray" && slices.Contains(v.ids.Trays, id):
		body.Tray = id
	case kind == "tank" && slices.Contains(v.ids.Tanks, id):
		body.Tank = id
	default:
		return errNotFound
	}
	return v.write(r, b.ID, body, false)
}

// surePage asks once before a decision.
type surePage struct {
	frame
	Say, Why words.Phrase
	Action   string
	To       string
	Position int64
	Back     string
	Yes      string
}

// sure asks once, unless it was answered already.
func (v *visit) sure(r *http.Request, b *book.Bath, say words.Phrase, to, yes string) (asked bool, err error) {
	if err := r.ParseForm(); err != nil {
		return true, err
	}
	if r.PostForm.Get("sure") != "" && position(r) != nil {
		return false, nil
	}
	p := surePage{
		frame: v.frame(r, "baths"), Say: say, Action: r.URL.Path, To: to, Position: v.state.Position(), Back: bathPath(b.ID), Yes: yes,
	}
	return true, v.show(http.StatusConflict, "sure", &p)
}

// bathAway writes down that a bath was discarded or collected.
func (s *server) bathAway(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there || b.Gone != nil {
		return errNotFound
	}
	to := r.PostFormValue("to")
	if !slices.ContainsFunc(v.waysOut(&b), func(t tap) bool { return t.Value == to }) {
		return errNotFound
	}
	leave := book.Leaving{To: to}
	key := "sure_" + to
	if can := v.canFor(&b); to == book.ToCollected && can.ID != "" {
		leave.Can, key = can.ID, "sure_can"
	}
	say := v.say.Tell(key, "Bath", capital(v.calledInBook(&b)), "Volume", v.say.Volume(b.Volume), "Can", v.canName(leave.Can))
	if asked, err := v.sure(r, &b, say, to, v.say.Label("to_"+to)); asked {
		return err
	}
	return v.write(r, b.ID, &book.Disposed{Bath: b.ID, Leaving: leave}, false)
}

// calledInBook names a bath by what it was mixed from.
func (v *visit) calledInBook(b *book.Bath) string {
	product, _ := v.state.Product(b.Mixed.Product)
	if product.Name != "" {
		return product.Name
	}
	return v.say.Label("bath")
}

// forward writes down that the second of two fixers took the place of the first.
func (s *server) forward(r *http.Request, v *visit) error {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there || b.Pair == nil || b.Pair.First == "" || b.Pair.Second == "" {
		return errNotFound
	}
	if asked, err := v.sure(r, &b, v.say.Tell("sure_forward"), "", v.say.Label("move_forward")); asked {
		return err
	}
	return v.write(r, b.Pair.Second, &book.Moved{
		First: b.Pair.First, Second: b.Pair.Second, Leaving: book.Leaving{Why: "spent", To: book.ToCollected, Can: v.canFor(&b).ID},
	}, false)
}
