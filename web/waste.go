package web

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/waste"
	"wetside/words"
)

// canView is one waste can.
type canView struct {
	ID, Name, Change string
	What             string
	Picture          *scene.Scene
	Level, FullOn    words.Phrase
	Pace             []reckoning.Reckoning
	Silver           []words.Phrase
	Reckoning        []reckoning.Reckoning
	Worth            words.Phrase
	Wrong            []words.Phrase
	NotVented        bool
	Day, By          field // of a fetching
	Document, Taken  field
	Open             bool // something is wrong with the fetching
	Into             field
	Past             []happened
	Heap             []tap // the cans in which what no can was named of may stand
}

type wastePage struct {
	frame
	Cans   []canView
	None   bool // there is no can yet
	Price  field
	Silver bool         // some of it is reckoned, so that it can be worth something
	Where  words.Phrase // who the room is and where it drains
	Drains []drainView
	Years  []yearView
	Keeps  bool
	Did    *doneView
}

// yearView is a year's sheet, also in other languages.
type yearView struct {
	Year   int
	Others []spokenIn
}

// wasteRoutes are the pages of the waste cans.
func (s *server) wasteRoutes() map[string]handler {
	return map[string]handler{
		"GET /waste":         s.waste,
		"GET /waste.pdf":     inWhite(inLanguage(s.wastePDF)),
		"GET /waste.csv":     inWhite(s.wasteCSV),
		"POST /waste/taken":  s.wasteTaken,
		"POST /waste/put":    s.wastePut,
		"POST /waste/answer": s.drainAnswered,
	}
}

// waste shows the cans, what is in them and where each kind of bath goes here.
func (s *server) waste(r *http.Request, v *visit) error {
	return v.showWaste(r, http.StatusOK, nil, nil)
}

// wakeWaste wakes the baths whose silver is reckoned of what is in the cans and was fetched since a moment.
func (v *visit) wakeWaste(ctx context.Context, from time.Time) error {
	return v.wake(ctx, func(s *book.State) book.Waking { return s.NeedsBaths(ahead.InCans(s, from)...) })
}

func (v *visit) showWaste(r *http.Request, status int, form, problems map[string]string) error {
	now := v.s.Now()
	year := time.Date(now.Year(), time.January, 1, 0, 0, 0, 0, now.Location())
	if err := v.wakeWaste(r.Context(), year); err != nil {
		return err
	}
	cans, err := ahead.Waste(v.state, year, now)
	if err != nil {
		return err
	}
	f := func(name, label string) field {
		return field{Name: name, Label: v.say.Label(label), Value: form[name], Problem: problems[name]}
	}
	here := ahead.Here(v.state, now)
	p := wastePage{frame: v.frame(r, "waste"), Keeps: v.keeps(), Where: v.say.PlaceAndDrain(&here)}
	for _, y := range ahead.YearsOfWaste(v.state, now) {
		p.Years = append(p.Years, yearView{y, v.languages("/waste.pdf", url.Values{"year": {strconv.Itoa(y)}})})
	}
	p.Title = v.say.Label("cans")
	p.Price = field{Name: "price", Label: v.say.Label("silver_price"), Value: r.URL.Query().Get("price"), Mode: "decimal", Hint: v.say.Label("hint_silver_price")}
	price, bad := readPrice(p.Price.Value)
	if bad {
		p.Price.Problem = v.say.Label("silver_price_wrong")
	}
	p.None = !slices.ContainsFunc(cans, func(c ahead.Can) bool { return c.There })
	for i := range cans {
		p.Cans = append(p.Cans, v.can(&cans[i], cans, price, f))
	}
	for _, a := range ahead.Drains(v.state, now) {
		p.Drains = append(p.Drains, v.drain(&a, f))
	}
	p.Silver = slices.ContainsFunc(cans, func(c ahead.Can) bool { return c.Silver.Known > 0 })
	p.Did = v.wasteDid(r.URL.Query().Get("did"), p.Cans)
	return v.show(status, "waste", &p)
}

func (v *visit) can(c *ahead.Can, all []ahead.Can, price int64, f func(name, label string) field) canView {
	one := canView{
		ID: c.ID, Name: capital(v.say.CanName(&c.WasteCan)), Level: v.say.CanLevel(c), FullOn: v.say.CanFullOn(c.FullOn), Silver: v.say.Silver(&c.Silver),
		Day: f("day "+c.ID, "taken_day"), By: f("by "+c.ID, "taken_by"), Document: f("document "+c.ID, "taken_document"), Taken: f("volume "+c.ID, "taken_volume"),
		Into: f("into "+c.ID, "put_volume"),
	}
	one.Day.Hint, one.By.Hint, one.Taken.Hint = v.say.Label("hint_taken_day"), v.say.Label("hint_taken_by"), v.say.Label("hint_taken_volume")
	one.Into.Hint = v.say.Label("hint_put_volume")
	for _, x := range []field{one.Day, one.By, one.Document, one.Taken} {
		one.Open = one.Open || x.Problem != ""
	}
	if c.ID != "" {
		one.What, one.Change = v.canText(c.Can), "/bench/can/"+c.ID
		one.NotVented = c.There && !c.Can.Vented.Value
	}
	if !c.FullOn.IsZero() {
		one.Pace = append(one.Pace, c.Pace)
	}
	if c.Silver.Known > 0 {
		one.Reckoning = append(one.Reckoning, c.Silver.Reckoning)
		if price > 0 {
			one.Worth = v.say.SilverWorth(waste.Worth(c.Silver.Grams, float64(price)), price)
		}
	}
	if picture, ok := draw.CanOf(v.say, c); ok {
		one.Picture = drawn(picture.Scene(v.form()))
	}
	for i := range c.Wrong {
		one.Wrong = append(one.Wrong, v.say.CanWrong(&c.Wrong[i]))
	}
	if c.ID == "" && len(c.Now) > 0 {
		for i := range all {
			if all[i].There {
				one.Heap = append(one.Heap, tap{Text: all[i].Can.Name, Value: all[i].ID})
			}
		}
	}
	one.Past = v.canPast(c)
	return one
}

// mostPast is how many entries of a can's past the page shows; the year's table has them all.
const mostPast = 30

// canPast is what happened to a can, the latest first.
func (v *visit) canPast(c *ahead.Can) (all []happened) {
	for _, m := range slices.Backward(c.Moves) {
		if len(all) == mostPast {
			break
		}
		all = append(all, happened{
			Entry: m.Entry, When: v.say.DateTime(m.At), Who: v.called(m.By), Undo: "/undo/" + m.Entry, Back: "/waste", Text: v.say.WasteMove(&m),
		})
	}
	return all
}

// wasteDid says what was written just now, by the address that the page was reached at.
func (v *visit) wasteDid(entry string, cans []canView) *doneView {
	for _, c := range cans {
		for _, m := range c.Past {
			if entry != "" && m.Entry == entry {
				return &doneView{Text: m.Text, Undo: m.Undo, Back: m.Back}
			}
		}
	}
	return nil
}

// readPrice reads a price for a gram in hundredths; bad is true for words that are none.
func readPrice(text string) (hundredths int64, bad bool) {
	text = strings.ReplaceAll(strings.TrimSpace(text), ",", ".")
	if text == "" {
		return 0, false
	}
	const most = 1e6
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x > 0 && x < most) {
		return 0, true
	}
	return int64(x*100 + 0.5), false
}

// wasteTaken writes down that a can was fetched or emptied.
func (s *server) wasteTaken(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	id := form["can"]
	if !slices.ContainsFunc(v.state.Waste(), func(c book.WasteCan) bool { return c.ID == id }) {
		return errNotFound
	}
	body := &book.TakenAway{
		Can: id, By: strings.TrimSpace(form["by "+id]), Document: strings.TrimSpace(form["document "+id]), Volume: form["volume "+id],
		Ounce: book.OunceOf(v.file.Darkroom.Ounce),
	}
	problems := map[string]string{}
	v.readableVolume(problems, "volume "+id, body.Volume, true)
	v.shortEnough(problems, form, "by "+id, "document "+id)
	at := v.dayOf(problems, "day "+id, form["day "+id])
	if len(problems) > 0 {
		return v.showWaste(r, http.StatusUnprocessableEntity, form, problems)
	}
	return v.writeWaste(r, body, at)
}

// wastePut writes down that something went into a can otherwise than by a bath's own entry.
func (s *server) wastePut(r *http.Request, v *visit) error {
	form, err := formOf(r)
	if err != nil {
		return err
	}
	id := form["can"]
	i := slices.Index(v.ids.Cans, id)
	if i < 0 {
		return errNotFound
	}
	if form["put_by"] != "" {
		return v.writeWaste(r, &book.WasteIn{Can: id, PutBy: true}, v.s.Now())
	}
	body := &book.WasteIn{
		Can: id, What: v.file.Bench.Cans[i].Takes.String(), Volume: form["into "+id], Ounce: book.OunceOf(v.file.Darkroom.Ounce),
	}
	problems := map[string]string{}
	v.readableVolume(problems, "into "+id, body.Volume, false)
	if len(problems) > 0 {
		return v.showWaste(r, http.StatusUnprocessableEntity, form, problems)
	}
	return v.writeWaste(r, body, v.s.Now())
}

// writeWaste writes what happened at a moment and goes on to the page that says so.
func (v *visit) writeWaste(r *http.Request, body book.Body, at time.Time) error {
	a := v.author(r)
	a.Now = at
	e, err := a.Write(body)
	if err != nil {
		return err
	}
	if err := v.s.Book.Append(r.Context(), []book.Entry{e}, nil); err != nil {
		return err
	}
	return v.to(r, "/waste?did="+e.ID)
}

// readableVolume says what is wrong with a volume.
func (v *visit) readableVolume(problems map[string]string, name, text string, mayMiss bool) {
	if text == "" && mayMiss {
		return
	}
	vol, err := quantity.ReadVolume(text, v.file.Darkroom.Ounce)
	if err == nil && vol <= 0 {
		err = quantity.NewReadError(text, 0, "volume", quantity.WhyNotPositive)
	}
	if err != nil {
		problems[name] = v.say.ReadError(err).Text()
	}
}

// mostWords is how many bytes a firm, a document or an answer has at most.
const mostWords = 2000

func (v *visit) shortEnough(problems, form map[string]string, names ...string) {
	for _, name := range names {
		if len(form[name]) > mostWords {
			problems[name] = v.say.Label("note_long")
		}
	}
}

// dayOf reads a day that is past or today; blank is now.
func (v *visit) dayOf(problems map[string]string, name, text string) time.Time {
	now := v.s.Now()
	if text == "" {
		return now
	}
	at, err := readMade(text, now)
	if at.Format(time.DateOnly) == now.Format(time.DateOnly) && at.After(now) {
		at = now
	}
	switch {
	case err != nil:
		problems[name] = v.say.Tell("taken_no_day", "Found", text, "Day", now.Format(time.DateOnly)).Text()
	case at.After(now):
		problems[name] = v.say.Tell("taken_to_come", "Found", text).Text()
	case at.Before(now.AddDate(-oldestBath, 0, 0)):
		problems[name] = v.say.Tell("taken_too_old", "Found", text).Text()
	}
	return at
}

// wasteNow is how full each can is, for the wall and whoever comes in.
func (v *visit) wasteNow() (all []words.Phrase) {
	for _, c := range ahead.Cans(v.state, v.s.Now()) {
		if c.There || len(c.Now) > 0 {
			all = append(all, v.say.CanAndLevel(&c))
		}
	}
	return all
}

// canFor is the can that a bath of the book is collected in; its id is empty where the room has none for it.
func (v *visit) canFor(b *book.Bath) book.WasteCan {
	product, _ := v.state.Product(b.Mixed.Product)
	return ahead.CanFor(v.state, product.Role)
}

// canName is a can's own name; empty for none.
func (v *visit) canName(id string) string {
	if i := slices.Index(v.ids.Cans, id); i >= 0 {
		return v.file.Bench.Cans[i].Name
	}
	return ""
}
