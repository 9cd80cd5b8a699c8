package cli

import (
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/draw/label"
	"wetside/draw/scene"
	"wetside/trade/material"
	"wetside/words"
)

type labelCmd struct {
	Bath string `arg:"" help:"Which bath or waste can, by its name; all is every bath."`
	whereFlags
	File    string `help:"A darkroom file: its baths as if made up when the session starts. Without one: the baths of the book." predictor:"file" placeholder:"FILE"`
	Size    string `help:"The label's size: 99.1x67.7, 105x74, 63.5x38.1, 4x2 in, 4x3 1/3 in, ... or a single one by its width and height, 80x50 mm." placeholder:"SIZE"`
	Start   int    `help:"The first free label of a part-used sheet, counted from 1 along the rows." default:"1" placeholder:"N"`
	Paper   string `help:"A4 or Letter; else the room's own." enum:"A4,Letter," default:""`
	By      string `help:"Who mixed it; the initials are printed." placeholder:"NAME"`
	Address string `help:"Where the pages are served, for the code: http://192.168.1.20:8460." env:"WETSIDE_ADDRESS" placeholder:"URL"`
	PDF     string `name:"pdf" help:"Write the labels as PDF." placeholder:"OUT"`
	Force   bool   `help:"Overwrite the PDF."`
	languageFlag
	Text bool `help:"Write the words out to be copied by hand; so it does without --pdf, too."`
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run makes the labels of baths and waste cans.
func (c *labelCmd) Run(s *session) error {
	b := bathsCmd{File: c.File, whereFlags: c.whereFlags, languageFlag: c.languageFlag, JSON: c.JSON}
	f, at, err := b.scene(s, material.None)
	if err != nil {
		return err
	}
	r, err := ahead.Look(at)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	v, err := voiceFor(s, f, f.Darkroom.Ounce)
	if err != nil {
		return err
	}
	on, paper, err := c.stock(v, f)
	if err != nil {
		return err
	}
	all, err := c.labels(v, f, r)
	if err != nil {
		return err
	}
	for _, l := range all {
		if _, err := l.Printable().Fit(on.Label, scene.Light); errors.Is(err, label.ErrSmall) && (c.PDF != "" || c.Size != "") {
			return &outcome{code: No, json: c.JSON, err: errors.New(label.Small(v, l, on, paper))}
		}
	}
	return c.give(s, v, all, on)
}

// give writes the labels as asked for.
func (c *labelCmd) give(s *session, v *words.Voice, all []label.Label, on label.Stock) error {
	if c.PDF != "" {
		if err := writeFile(c.PDF, c.Force, c.JSON, func(w io.Writer) error { return s.parts.Labels(w, all, on, c.Start) }); err != nil {
			return err
		}
	}
	if c.JSON {
		writeJSON(s.io.Out, labelsJSON(v, all, on, c.Start))
		return nil
	}
	if c.PDF == "" || c.Text {
		for i, l := range all {
			if i > 0 {
				say(s.io.Out, "\n")
			}
			say(s.io.Out, "%s", l.Text())
		}
	}
	if c.PDF == "" {
		return nil
	}
	for _, l := range all {
		remarks := label.Remarks(v, l, on)
		if l.Address == "" {
			remarks = append(remarks, v.Tell("on_label.no_address").Text())
		}
		for _, x := range remarks {
			say(s.io.Err, "wetside: %s: %s\n", l.Title, x)
		}
	}
	return nil
}

// stock reads the size and its paper; without a size it is the usual one of the paper.
func (c *labelCmd) stock(v *words.Voice, f darkroom.File) (on label.Stock, paper string, err error) {
	paper = c.Paper
	if paper == "" && f.Darkroom.PrintOn == "Letter" {
		paper = "Letter"
	} else if paper == "" {
		paper = "A4"
	}
	on = label.StocksOn(paper)[0]
	if paper == "Letter" {
		on = label.StocksOn(paper)[1]
	}
	if c.Size != "" {
		var known bool
		if on, known = label.Named(c.Size); !known {
			return on, paper, bad(c.JSON, "--size %s", v.Tell("on_label.no_size", "Found", c.Size, "Names", label.Names(label.Stocks())).Text())
		}
	}
	if on.Paper != "" && c.Paper != "" && on.Paper != c.Paper {
		return on, paper, bad(c.JSON, "--paper %s", v.Tell("on_label.other_paper", "Size", on.Name, "Has", on.Paper, "Paper", c.Paper, "Names", label.Names(label.StocksOn(c.Paper))).Text())
	}
	if c.Start < 1 || c.Start > on.On() {
		return on, paper, bad(c.JSON, "--start %s", v.Tell("on_label.no_start", "Size", on.Name, "N", strconv.Itoa(on.On()), "Found", strconv.Itoa(c.Start)).Text())
	}
	return on, paper, nil
}

// labels are those of the baths and cans that are named.
func (c *labelCmd) labels(v *words.Voice, f darkroom.File, r ahead.Report) (all []label.Label, err error) {
	name := strings.Join(strings.Fields(c.Bath), " ")
	var names []string
	for i := range r.Baths {
		o := &r.Baths[i]
		names = append(names, o.Bath.Name)
		if !strings.EqualFold(name, every) && o.Bath.ID != name && !strings.EqualFold(o.Bath.Name, name) && !strings.EqualFold(v.BathCalled(o.Bath), name) {
			continue
		}
		l, err := label.OfBath(v, o, f, label.Told{By: c.By, Address: c.page("/baths/" + o.Bath.ID)})
		if err != nil {
			return nil, bad(c.JSON, "%s", unmixed(v, err))
		}
		all = append(all, l)
	}
	for _, can := range f.Bench.Cans {
		names = append(names, can.Name)
		if !strings.EqualFold(can.Name, name) {
			continue
		}
		l, err := label.OfCan(v, can, f, label.Told{Address: c.page("/waste")})
		if err != nil {
			return nil, bad(c.JSON, "%s", unmixed(v, err))
		}
		all = append(all, l)
	}
	if len(all) == 0 {
		return nil, bad(c.JSON, "%s", v.Tell("on_label.no_bath", "Found", c.Bath, "Names", strings.Join(slices.Compact(names), ", ")).Text())
	}
	return all, nil
}

// page is the address of a page where the pages are served; the baths of a file have none.
func (c *labelCmd) page(path string) string {
	if c.Address == "" || c.File != "" {
		return ""
	}
	return strings.TrimRight(c.Address, "/") + path
}

// labelTold is a label as JSON.
type labelTold struct {
	Title      string      `json:"title"`
	About      string      `json:"about"`
	For        string      `json:"for"`
	Alarm      string      `json:"alarm"`
	Fields     []fieldTold `json:"fields"`
	Signal     string      `json:"signal_word"`
	Pictograms []string    `json:"pictograms"`
	Hazards    []string    `json:"hazard_statements"`
	Advice     []string    `json:"precautionary_statements"`
	Notes      []string    `json:"notes"`
	Spent      string      `json:"spent"`
	Address    string      `json:"address"`
	Text       string      `json:"text"`
	Remarks    []string    `json:"remarks"`
	Fits       []string    `json:"fits"`
	Side       float64     `json:"pictogram_least_mm"`
	WantsMM    [2]float64  `json:"label_wanted_mm"`
}

type fieldTold struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

func labelsJSON(v *words.Voice, all []label.Label, on label.Stock, start int) any {
	var out struct {
		Size   string      `json:"size"`
		WideMM float64     `json:"wide_mm"`
		HighMM float64     `json:"high_mm"`
		Paper  string      `json:"paper"`
		Start  int         `json:"start"`
		Labels []labelTold `json:"labels"`
	}
	out.Size, out.WideMM, out.HighMM, out.Paper, out.Start = on.Name, on.Label.Wide, on.Label.High, on.Paper, start
	for _, l := range all {
		t := labelTold{
			Title: l.Title, About: l.About, For: l.For, Alarm: l.Alarm, Signal: l.Signal, Hazards: list(l.Hazard), Advice: list(l.Advice),
			Notes: list(l.Notes), Spent: l.Spent, Address: l.Address, Text: l.Text(), Remarks: list(label.Remarks(v, l, on)),
			Side: l.Side, WantsMM: [2]float64{l.Wants.Wide, l.Wants.High},
		}
		for _, f := range l.Fields {
			t.Fields = append(t.Fields, fieldTold{f.Name, f.Value})
		}
		t.Pictograms, t.Fits = []string{}, []string{}
		for _, s := range l.Signs {
			t.Pictograms = append(t.Pictograms, s.Code)
		}
		for _, s := range l.Fits(label.Stocks()) {
			t.Fits = append(t.Fits, s.Name)
		}
		out.Labels = append(out.Labels, t)
	}
	return out
}

// list is never null.
func list(all []string) []string {
	if all == nil {
		return []string{}
	}
	return all
}
