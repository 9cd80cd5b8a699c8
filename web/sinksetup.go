package web

import (
	"encoding/json"
	"net/http"
	"slices"
	"time"

	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A sinkSetup is what the sink page's scripts start with: what is planned and what is under way. All else they get as
// entries, and fold themselves.
type sinkSetup struct {
	Now      string            `json:"now"`
	Position int64             `json:"position"` // up to which entries are in it
	Device   string            `json:"device"`
	Me       string            `json:"me,omitempty"`
	Guest    bool              `json:"guest,omitempty"` // the device joined: it opens no evening
	Evening  string            `json:"evening,omitempty"`
	Stations []setupStation    `json:"stations"`
	Ways     []setupWay        `json:"ways"`
	People   map[string]string `json:"people,omitempty"` // names by id
	Joined   []string          `json:"joined,omitempty"` // who came in tonight, in order
	Gone     []int64           `json:"gone,omitempty"`   // when the evening's prints that left the sink were started, ms since 1970
	Entries  []json.RawMessage `json:"entries"`          // as the live stream gives them
	Steps    map[string]int    `json:"steps"`            // which step comes before which
	Lines    map[string]string `json:"lines"`
	Language string            `json:"language"`
	Zone     string            `json:"zone"`   // of the room, as the time zone database names it
	Degree   string            `json:"degree"` // of a thermometer's reading without one
	Half     bool              `json:"half,omitempty"`
	Worker   string            `json:"worker,omitempty"` // address of the service worker
}

type setupStation struct {
	Key  string `json:"key"`
	Step string `json:"step"`
	Bath string `json:"bath,omitempty"`
	Film bool   `json:"film,omitempty"`
	Into string `json:"into"` // what is said when a print goes there
	Name string `json:"name"`
}

type setupWay struct {
	Key      string      `json:"key"`
	Material string      `json:"material"`
	Size     string      `json:"size"`
	Small    string      `json:"small"` // the size as it is said
	Label    string      `json:"label"` // size and material
	Rolls    int         `json:"rolls,omitempty"`
	Stops    []setupStop `json:"stops"`
}

type setupStop struct {
	Station int        `json:"station"`
	Time    int64      `json:"time"` // ms, 0: nobody knows it
	Drain   int64      `json:"drain,omitempty"`
	Moves   [][2]int64 `json:"moves,omitempty"` // of a film: when the agitation begins, and how long it lasts, ms
}

// sinkSetup gives the scripts of the sink page what they start with.
func (s *server) sinkSetup(r *http.Request, v *visit) error {
	device := v.device(r)
	l, err := v.lookAtSink(r)
	if err != nil {
		return err
	}
	set := sinkSetup{
		Now: l.now.UTC().Format(instants), Position: l.state.Position(), Device: device, Me: l.person(r), Guest: !l.keeps(), Evening: l.Evening.ID, Steps: map[string]int{},
		Lines: l.say.SinkLines(), Language: l.say.Language().String(), Zone: l.now.Location().String(), Half: l.say.HalfDays(), Degree: l.degree(),
		Worker: s.pages.worker,
	}
	set.Lines["strip"], set.Lines["wash_starts"], set.Lines["wash_ends"] = l.say.Label("sink_strip"), l.say.Label("sink_wash_starts"), l.say.Label("sink_wash_ends")
	set.Lines["nobodys"] = l.say.Label("sink_anyone")
	set.Lines["out"], set.Lines["take_out"] = l.say.SinkInto(process.NoStep, 0, false), l.say.SinkInto(process.NoStep, 0, true)
	for _, step := range process.Steps() {
		set.Steps[step.String()] = place(step)
	}
	set.plan(l)
	if err := set.underWay(r, l); err != nil {
		return err
	}
	v.w.Header().Set("Content-Type", "application/json")
	v.w.Header().Set("Cache-Control", "no-store")
	return json.NewEncoder(v.w).Encode(set)
}

// place numbers a step so that a step that comes before another has the smaller number.
func place(step process.Step) (n int) {
	for _, other := range process.Steps() {
		if other.Before(step) {
			n++
		}
	}
	return n
}

// plan tells the stations and the ways.
func (set *sinkSetup) plan(l *sinkLook) {
	for i := range l.Stations {
		s := &l.Stations[i]
		set.Stations = append(set.Stations, setupStation{
			Key: s.Key, Step: s.Step.String(), Bath: s.Bath, Film: s.Film, Name: l.name(s), Into: l.say.SinkInto(s.Step, l.number(s), s.Film),
		})
	}
	for i := range l.Ways {
		w := &l.Ways[i]
		way := setupWay{
			Key: w.Key, Material: w.Material.String(), Size: w.Size.String(), Small: l.say.Size(w.Size), Rolls: w.Rolls,
			Label: joined(l.say.Size(w.Size), l.say.Material(w.Material)),
		}
		if w.Material == material.Film {
			way.Small = l.say.Count("rolls", max(w.Rolls, 1))
		}
		for _, stop := range w.Stops {
			one := setupStop{Station: stop.Station, Time: stop.Time.Milliseconds(), Drain: stop.Drain.Milliseconds()}
			for _, m := range stop.Moves {
				one.Moves = append(one.Moves, [2]int64{m.At.Milliseconds(), m.For.Milliseconds()})
			}
			way.Stops = append(way.Stops, one)
		}
		set.Ways = append(set.Ways, way)
	}
}

// underWay tells the prints in the sink and their batches by their entries, and whose they are.
func (set *sinkSetup) underWay(r *http.Request, l *sinkLook) error {
	set.People, set.Entries = map[string]string{}, []json.RawMessage{}
	for _, j := range l.Evening.Joined {
		set.Joined = append(set.Joined, j.Person)
		set.People[j.Person] = l.called(j.Person)
	}
	var prints, batches []string
	for _, p := range l.tracked() {
		prints = append(prints, p.ID)
		if p.Of != "" {
			set.People[p.Of] = l.called(p.Of)
		}
	}
	for i := range l.Batches {
		batches = append(batches, l.Batches[i].ID)
	}
	for _, id := range l.state.Said(prints, batches) {
		e, err := l.s.Book.Find(r.Context(), id)
		if err != nil {
			return err
		}
		set.Entries = append(set.Entries, lineOf(e).text)
	}
	for _, p := range l.Begun {
		if !slices.Contains(prints, p.ID) {
			set.Gone = append(set.Gone, p.Began.UnixMilli())
		}
	}
	return nil
}

// justNow is how long a print that left is told of still, so that its leaving can be taken back.
const justNow = 10 * time.Minute

// tracked are the prints that the scripts must know the entries of: those under way and those that just left.
func (l *sinkLook) tracked() (prints []book.Print) {
	stray := map[string]bool{}
	for i := range l.Stray {
		stray[l.Stray[i].ID] = true
	}
	for _, p := range l.state.Prints() {
		if !stray[p.ID] {
			prints = append(prints, p)
		}
	}
	for _, p := range l.Begun {
		if p.Left != nil && l.now.Sub(p.Left.At) < justNow {
			prints = append(prints, p)
		}
	}
	return prints
}
