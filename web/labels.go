package web

import (
	"bytes"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"wetside/access"
	"wetside/darkroom"
	"wetside/draw/label"
	"wetside/draw/scene"
	"wetside/trade/process"
	"wetside/words"
)

// labelsPage chooses labels, their size and the place where they begin, and shows them as they will be printed.
type labelsPage struct {
	frame
	Of              []tickable
	Size            field
	Start           field
	Speaks          field
	Labels          []labelView
	PDF             string // where it is printed; empty: something is in the way
	None            bool
	Cards, Calendar []spokenIn   // each in other languages
	Lone            words.Phrase // a phone can't open the code's address; empty: it can
}

type tickable struct {
	Value, Text string
	Ticked      bool
}

// labelView is one label as it is printed, or why it can't be.
type labelView struct {
	Title   string
	Picture *scene.Scene
	Small   string
	Remarks []string
	Text    string
}

const (
	ofCan = "can " // before the name of a waste can
	ofLot = "lot " // before the id of a bottle
)

// A labelled is a label that can be chosen.
type labelled struct {
	of    string
	name  string
	label label.Label
}

// everyLabel are the labels that can be printed, of each bath that stands and of each waste can, as a voice says them.
func (v *visit) everyLabel(r *http.Request, say *words.Voice) (all []labelled, err error) {
	_, report, err := v.outlook(r.Context(), looking{})
	if err != nil {
		return nil, err
	}
	for i := range report.Baths {
		o := &report.Baths[i]
		by := ""
		if o.Bath.MadeBy != "" {
			by = v.people[o.Bath.MadeBy].Name
		}
		whose := ""
		if o.Bath.Whose != "" {
			whose = v.people.Name(o.Bath.Whose)
		}
		l, err := label.OfBath(say, o, v.file, label.Told{By: by, Whose: whose, Address: addressOf(r) + bathPath(o.Bath.ID)})
		if err != nil {
			return nil, err
		}
		all = append(all, labelled{o.Bath.ID, titled(capital(v.say.BathCalled(o.Bath)), o.Bath.Tray+o.Bath.Tank), l})
	}
	owned, err := v.lotLabels(r, say)
	if err != nil {
		return nil, err
	}
	all = append(all, owned...)
	for _, c := range v.file.Bench.Cans {
		l, err := label.OfCan(say, c, v.file, label.Told{Address: addressOf(r) + "/waste"})
		if err != nil {
			return nil, err
		}
		all = append(all, labelled{ofCan + c.Name, titled(v.canTitle(c), c.Name), l})
	}
	return all, nil
}

// lotLabels are the labels of the bottles that are somebody's. The room's have their maker's.
func (v *visit) lotLabels(r *http.Request, say *words.Voice) (all []labelled, err error) {
	for i, lot := range v.file.Shelf.Lots {
		p, known := v.file.Shelf.Product(lot.Product)
		if lot.Whose == "" || !known {
			continue
		}
		l, err := label.OfLot(say, lot, &p, v.file, label.Told{Whose: lot.Whose, Address: addressOf(r) + "/shelf"})
		if err != nil {
			return nil, err
		}
		all = append(all, labelled{ofLot + v.ids.Lots[i], titled(v.say.Owner(lot.Whose), titled(lot.Product, lot.Holds.Text)), l})
	}
	return all, nil
}

// canTitle says what a can takes.
func (v *visit) canTitle(c darkroom.Can) string {
	if c.Takes == process.NoRole {
		return capital(v.say.Label("label_waste"))
	}
	return capital(v.say.UsedBath(c.Takes))
}

// labelling reads which labels are asked for, on what, from which place on. What is wrong stands in problems.
func (v *visit) labelling(r *http.Request, all []labelled) (chosen []labelled, on label.Stock, start int, problems map[string]string) {
	q, problems := r.URL.Query(), map[string]string{}
	for _, x := range all {
		if of := q["of"]; len(of) == 0 || slices.Contains(of, x.of) {
			chosen = append(chosen, x)
		}
	}
	stocks := v.stocks()
	on, start = stocks[0], 1
	if name := q.Get("size"); name != "" {
		i := slices.IndexFunc(stocks, func(s label.Stock) bool { return s.Name == name })
		if i < 0 {
			problems["size"] = v.say.Tell("on_label.no_size", "Found", name, "Names", label.Names(stocks)).Text()
		} else {
			on = stocks[i]
		}
	}
	if text := strings.TrimSpace(q.Get("start")); text != "" {
		n, err := strconv.Atoi(text)
		if start = n; err != nil || n < 1 || n > on.On() {
			problems["start"] = v.say.Tell("on_label.no_start", "Size", on.Name, "N", strconv.Itoa(on.On()), "Found", text).Text()
		}
	}
	return chosen, on, start, problems
}

// stocks are the sizes on the room's paper and off rolls, the usual one first.
func (v *visit) stocks() []label.Stock {
	if v.file.Darkroom.PrintOn == "Letter" {
		all := label.StocksOn("Letter")
		all[0], all[1] = all[1], all[0]
		return all
	}
	return label.StocksOn("A4")
}

// labels shows the labels of what stands here.
func (s *server) labels(r *http.Request, v *visit) error {
	told := *v // as the labels speak; the page itself speaks as the room does
	if err := told.speak(r.URL.Query().Get("language")); err != nil {
		return err
	}
	all, err := v.everyLabel(r, told.say)
	if err != nil {
		return err
	}
	chosen, on, start, problems := v.labelling(r, all)
	p := labelsPage{frame: v.frame(r, "baths"), None: len(all) == 0}
	p.Title, p.Cards, p.Calendar = v.say.Label("labels"), v.languages("/cards.pdf", url.Values{}), v.languages("/calendar.ics", url.Values{})
	if access.Loopback(r.Host) {
		p.Lone = v.say.Tell("join_loopback", "Host", r.Host)
	}
	for _, x := range all {
		p.Of = append(p.Of, tickable{x.of, x.name, slices.ContainsFunc(chosen, func(c labelled) bool { return c.of == x.of })})
	}
	p.Size = field{Name: "size", Label: v.say.Label("label_size"), Value: on.Name, Problem: problems["size"], Options: v.sizeOptions()}
	p.Start = field{Name: "start", Label: v.say.Label("label_start"), Value: r.URL.Query().Get("start"), Problem: problems["start"], Mode: "numeric", Hint: v.say.Label("hint_label_start")}
	tag := told.say.Language().String()
	p.Speaks = field{Name: "language", Label: v.say.Label("language_labels"), Value: tag, Options: v.languageOptions(tag)}
	q := url.Values{"language": {tag}, "size": {on.Name}, "start": {strconv.Itoa(start)}}
	fits := true
	for _, x := range chosen {
		view := v.labelView(x, on)
		fits = fits && view.Picture != nil
		p.Labels, q["of"] = append(p.Labels, view), append(q["of"], x.of)
	}
	if fits && len(problems) == 0 && len(chosen) > 0 {
		p.PDF = "/labels.pdf?" + q.Encode()
	}
	status := http.StatusOK
	if len(problems) > 0 {
		status = http.StatusUnprocessableEntity
	}
	return v.show(status, "labels", &p)
}

// titled names a label among others.
func titled(title, where string) string {
	if where == "" {
		return title
	}
	return title + ", " + where
}

func (v *visit) labelView(x labelled, on label.Stock) labelView {
	l := x.label
	view := labelView{Title: x.name, Text: l.Text(), Remarks: label.Remarks(v.say, l, on)}
	fitted, err := l.Printable().Fit(on.Label, v.form())
	if err != nil {
		view.Small = label.Small(v.say, l, on, v.stocks()[0].Paper)
		return view
	}
	view.Picture = &fitted.Scene
	return view
}

func (v *visit) sizeOptions() (all []option) {
	for _, s := range v.stocks() {
		text := v.say.Tell("on_label.roll", "Size", shown(s)).Text()
		if s.Paper != "" {
			text = v.say.Tell("on_label.sheet", "Size", shown(s), "N", strconv.Itoa(s.On()), "Paper", s.Paper).Text()
		}
		all = append(all, option{s.Name, text})
	}
	return all
}

// shown writes a stock's size with its unit.
func shown(s label.Stock) string {
	text := strings.ReplaceAll(s.Name, "x", " × ")
	if !strings.HasSuffix(text, "in") {
		text += " mm"
	}
	return unbroken(text)
}

// labelsPDF sends the labels to print.
func (s *server) labelsPDF(r *http.Request, v *visit) error {
	all, err := v.everyLabel(r, v.say)
	if err != nil {
		return err
	}
	chosen, on, start, problems := v.labelling(r, all)
	var list []label.Label
	for _, x := range chosen {
		if _, err := x.label.Printable().Fit(on.Label, scene.Light); err != nil {
			problems["size"] = err.Error()
		}
		list = append(list, x.label)
	}
	if len(problems) > 0 || len(list) == 0 {
		return v.to(r, "/labels?"+r.URL.RawQuery) // where it is said
	}
	var b bytes.Buffer
	if err := s.Labels(&b, list, on, start); err != nil {
		return err
	}
	return v.sendFile(&b, "application/pdf", `inline; filename="labels.pdf"`)
}

// labelsOf is where the label of one bath is.
func labelsOf(bath string) string { return "/labels?" + url.Values{"of": {bath}}.Encode() }
