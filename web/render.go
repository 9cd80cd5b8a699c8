package web

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"path"
	"slices"
	"strings"
	"sync"

	"wetside/access"
	"wetside/draw/scene"
	"wetside/words"
)

//go:embed templates/*.html
var templates embed.FS

//go:embed assets
var assets embed.FS

// A page is what a template shows; every page has a frame.
type page interface{ fill(f frameParts) }

// frame is what every page has round it.
type frame struct {
	Title  string
	Here   string // which part of the house this is, for the links at the head
	V      *words.Voice
	Room   string
	Back   string       // this page, to come back to
	Screen words.Phrase // how this device's screen did in its test
	Signed string       // who is signed in with this device; empty: nobody
	Rules  bool         // whoever asks says who may do what
	Door   bool         // it is a device of the room, at which a keyholder may sign in
	Leaves string       // who leaves at the foot of the page: a guest, a member; empty: nobody
	White  bool         // it has no form for the dark
	frameParts
}

type frameParts struct {
	Style  string       // address of the style sheet
	Red    bool         // the form for the dark
	Ground template.CSS // of the red form, in the page itself
}

// Inside reports whether a page is of the room itself: what stands on its shelf and bench, and how it is set.
func (f *frame) Inside() bool {
	return slices.Contains([]string{"shelf", "bench", "settings", "file", "safety", "who_may"}, f.Here)
}

func (f *frame) fill(p frameParts) { f.frameParts = p }

// frame returns the frame of a page; part is a part of the house: today, plan, mix, bench, shelf, room, jug.
func (v *visit) frame(r *http.Request, part string) frame {
	f := frame{Here: part, V: v.say, Room: v.roomFor(part), Back: here(r), Screen: v.screenSays(r)}
	f.Door = v.who.Role == access.Wall || v.who.Role == access.Sink
	if f.Rules = v.keeps(); f.Rules && v.who.Person != "" {
		f.Signed = v.called(v.who.Person)
	}
	if v.who.Role == access.Joined || v.who.Role == access.Member {
		f.Leaves = v.called(v.who.Person)
	}
	if v.say.HasLabel(part) {
		f.Title = v.say.Label(part)
	}
	return f
}

// roomFor is the room's name at the head of a page, beside which the ways to the other pages stand; empty for whom they are
// not open.
func (v *visit) roomFor(part string) string {
	if access.Reads(v.who.Role) || part == "wall" && v.who.Role == access.Wall {
		return v.file.Darkroom.Name
	}
	return ""
}

type pages struct {
	light, dark *leaves
	assets      map[string]asset // by hashed name
	style       string
	red         string // the style sheet of the red form
	script      string // the sink page's, which imports the others
	wallScript  string // the same of the wall
	worker      string // address of the service worker
	workerBody  []byte
}

// leaves are the pages of one form, each parsed with its layout when it is first asked for: most are not, in an evening.
type leaves struct {
	base func() (*template.Template, error) // layout and pieces
	mu   sync.Mutex
	all  map[string]*template.Template
}

func newLeaves(f template.FuncMap) *leaves {
	return &leaves{all: map[string]*template.Template{}, base: sync.OnceValues(func() (*template.Template, error) {
		return template.New("").Funcs(f).ParseFS(templates, "templates/layout.html", "templates/pieces.html")
	})}
}

// page returns a page's template.
func (l *leaves) page(name string) (*template.Template, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if t, ok := l.all[name]; ok {
		return t, nil
	}
	base, err := l.base()
	if err != nil {
		return nil, err
	}
	t, err := base.Clone()
	if err != nil {
		return nil, err
	}
	if l.all[name], err = t.ParseFS(templates, "templates/"+name+".html"); err != nil {
		return nil, err
	}
	return t, nil
}

type asset struct {
	kind string
	body []byte
}

// newPages makes ready what every page needs. That each page's template parses, its tests say.
func newPages() (*pages, error) {
	p := &pages{assets: map[string]asset{}, light: newLeaves(functions())}
	dark := functions()
	dark["dark"] = func() bool { return true }
	p.dark = newLeaves(dark)
	if _, err := p.light.base(); err != nil {
		return nil, err
	}
	return p, p.load()
}

// load reads the assets; the style sheet gets the colours of the light and the dark look before it.
func (p *pages) load() error {
	css, err := assets.ReadFile("assets/wetside.css")
	if err != nil {
		return err
	}
	colours := ":root{" + scene.PaletteFor(scene.Light).CSS() + "}\n" +
		"@media screen and (prefers-color-scheme:dark){:root{" + scene.PaletteFor(scene.Dark).CSS() + "}}\n"
	p.style = p.put("wetside.css", "text/css; charset=utf-8", append([]byte(colours), css...))
	red, err := assets.ReadFile("assets/red.css")
	if err != nil {
		return err
	}
	colours = "@media screen{:root{" + scene.PaletteFor(scene.Red).CSS() + "}}\n" +
		"@media print{:root{" + scene.PaletteFor(scene.Light).CSS() + "}}\n"
	p.red = p.put("red.css", "text/css; charset=utf-8", slices.Concat([]byte(colours), css, red))
	return p.loadScripts()
}

// put keeps an asset under a name with the hash of its contents and returns its address.
func (p *pages) put(name, kind string, body []byte) string {
	sum := sha256.Sum256(body)
	ext := path.Ext(name)
	hashed := strings.TrimSuffix(name, ext) + "-" + hex.EncodeToString(sum[:6]) + ext
	p.assets[hashed] = asset{kind, body}
	return "/assets/" + hashed
}

func (p *pages) asset(w http.ResponseWriter, r *http.Request) {
	a, ok := p.assets[r.PathValue("name")]
	if !ok {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", a.kind)
	w.Header().Set("Cache-Control", "public, max-age=31536000, immutable")
	_, _ = w.Write(a.body)
}

func (p *pages) render(w io.Writer, name string, v *visit, data page) error {
	form, parts := p.light, frameParts{Style: p.style}
	if v.form() == scene.Red {
		form, parts = p.dark, frameParts{Style: p.red, Red: true, Ground: firstBytes}
	}
	t, err := form.page(name)
	if err != nil {
		return fmt.Errorf("web: page %s: %w", name, err)
	}
	data.fill(parts)
	return t.ExecuteTemplate(w, "layout", data)
}

// functions are what templates may call.
func functions() template.FuncMap {
	return template.FuncMap{
		"phrase": phraseHTML,
		"svg":    func(s scene.Scene) template.HTML { return template.HTML(s.SVG()) }, //nolint:gosec // our own drawing; its words are escaped by scene
		"add":    func(a, b int) int { return a + b },
		"dict":   dict,
		"dark":   func() bool { return false },
	}
}

// phraseHTML sets a phrase with its heavy parts strong.
func phraseHTML(p words.Phrase) template.HTML {
	var b strings.Builder
	for _, s := range p {
		text := template.HTMLEscapeString(s.Text)
		if s.Weight == words.Heavy {
			text = "<b>" + text + "</b>"
		}
		b.WriteString(text)
	}
	return template.HTML(b.String()) //nolint:gosec // every part is escaped above
}

// dict puts named things together for a piece of a template.
func dict(pairs ...any) (map[string]any, error) {
	out := map[string]any{}
	for i := 0; i+1 < len(pairs); i += 2 {
		key, ok := pairs[i].(string)
		if !ok {
			return nil, fmt.Errorf("web: %v is no name", pairs[i])
		}
		out[key] = pairs[i+1]
	}
	return out, nil
}
