package web_test

import (
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/draw/scene"
	"wetside/internal/browsertest"
)

// brightest is the most that a pixel of a red page has: that of its ink, the least at which small text has 4.5:1.
// What the compositor lays together it may round up by one.
func brightest() uint8 { return scene.PaletteFor(scene.Red)[scene.Ink].R + 1 }

// redHouse is a house in use, and the addresses of all its pages: those that links lead to, and those that have something to
// complain of.
func redHouse(t *testing.T) (h *house, paths []string) {
	t.Helper()
	h = withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	h.post(fixer+"/worked", url.Values{"load": {"20 8x10 in RC paper"}})
	h.post(fixer+"/tested", url.Values{"test": {"silver strip"}, "result": {"0.5 g/L"}})
	code := h.share()
	for path, a := range h.walk("/", "/begin", "/begin/jugs", "/begin/trays", "/begin/bottles", "/begin/prints", "/parts", "/red", "/red/white", "/wash", "/labels") {
		if strings.HasPrefix(a.Header.Get("Content-Type"), "text/html") && a.StatusCode == http.StatusOK && !strings.HasPrefix(path, "/red?") {
			paths = append(paths, path)
		}
	}
	paths = append(paths, fixer+"?if=archival", fixer+"?people=x&hours=2", "/wash?material=FB+paper&standard=archival&prints=4+8x10",
		"/wash?material=FB+paper&prints=x", "/wrong?q=xyzzy", "/wrong?sign=grey_veil&no=unsafe_light&yes=developer_hot", "/baths/nobody", "/nowhere", "/jug?dilution=1%2B9&volume=1+L", "/jug?dilution=x&volume=1+L", code, "/join/NOBODY")
	slices.Sort(paths)
	return h, onePerKind(slices.DeleteFunc(paths, func(path string) bool { return h.whiteAlone(path) }))
}

// whiteAlone reports whether a page is for white light, which is asked about before: those alone are on which a passphrase is typed.
func (h *house) whiteAlone(path string) bool {
	h.t.Helper()
	secret := strings.Contains(h.get(path).Text, `type="password"`)
	a, asked := h.red(path), "/red/white?"+url.Values{"back": {path}, "for": {"typing"}}.Encode()
	if away := a.Header.Get("Location") == asked; away != secret {
		h.t.Errorf("%s has a field for a passphrase: %v; in red it is %d to %q", path, secret, a.StatusCode, a.Header.Get("Location"))
	}
	return secret
}

// onePerKind leaves two of the pages that differ in an id alone.
func onePerKind(paths []string) (out []string) {
	id := regexp.MustCompile(`[0-9a-f]{8}-[0-9a-f-]{27}|/[a-z]+-[0-9]+$|/[0-9]+$|=[^&]+`)
	seen := map[string]int{}
	for _, p := range paths {
		kind := id.ReplaceAllString(p, "#")
		if seen[kind]++; seen[kind] <= 2 {
			out = append(out, p)
		}
	}
	return out
}

// inRed opens a tab in the red form, as a user turns it on.
func inRed(t *testing.T, base string, l browsertest.Look) *browsertest.Page {
	t.Helper()
	p := browsertest.Open(t, &chromium, base, l)
	for _, status := range []int64{http.StatusUnprocessableEntity, http.StatusNotFound, http.StatusForbidden, http.StatusConflict} {
		p.Expect(status)
	}
	p.Go("/baths")
	p.Click("button", "Red light")
	p.Reach("/red")
	p.See("never tested")
	p.Click("link", "Go on")
	p.Reach("/baths")
	return p
}

// look takes a picture of a page and fails where it is not red alone.
func look(t *testing.T, p *browsertest.Page, what string) {
	t.Helper()
	shot, err := p.Screenshot(0)
	if err != nil {
		t.Fatal(err)
	}
	judge(t, shot, what, true)
}

func judge(t *testing.T, shot []byte, what string, something bool) {
	t.Helper()
	lit, err := browsertest.RedAlone(shot, brightest())
	if err == nil && (lit > 0 || !something) {
		return
	}
	name := t.ArtifactDir() + "/red.png"
	t.Errorf("%s: %d pixels lit, %v; see %s", what, lit, err, name)
	if err := os.WriteFile(name, shot, 0o600); err != nil {
		t.Log(err)
	}
}

func run(t *testing.T, p *browsertest.Page, script string) {
	t.Helper()
	if _, err := browsertest.Eval[bool](p.Tab, script+";true"); err != nil {
		t.Fatal(err)
	}
}

// Every page in the red form, to the last pixel: as it comes, and with all opened, hovered, focused, pressed and selected.
func TestRedPages(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and without a race of its own: the whole run has it")
	}
	t.Parallel()
	h, paths := redHouse(t)
	if len(paths) < 35 {
		t.Fatalf("%d pages only: %v", len(paths), paths)
	}
	for name, l := range map[string]browsertest.Look{"phone": browsertest.Phone(), "desk, light wanted": browsertest.Desk()} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := inRed(t, h.URL, l)
			for i, path := range paths {
				if l.Width > 1000 && i%4 != 0 {
					continue // the same style, more of it at once
				}
				p.Go(path)
				run(t, p, "document.querySelectorAll('details').forEach(d => d.open = true)")
				p.Audit()
				look(t, p, path)
				run(t, p, `document.querySelectorAll('input:not([type=hidden]),textarea').forEach(x => x.value ||= '12')
					;document.querySelector('input[autocomplete],textarea')?.select()`)
				if n, err := p.Force("a,button,summary,input:not([type=hidden]),textarea,label", "hover", "focus", "focus-visible", "active"); err != nil || n == 0 {
					t.Fatalf("%s: %d things to point at, %v", path, n, err)
				}
				look(t, p, path+", pointed at")
			}
		})
	}
}

// What a red page's bytes may not have: what the browser draws in a look of its own, and the room's own colours.
func TestRedBytes(t *testing.T) {
	t.Parallel()
	h, paths := redHouse(t)
	native := regexp.MustCompile(`(?i)<(select|option|datalist|dialog|iframe|img|video|audio|progress|meter)\b|own-|\btitle="|<title>[^<]*</title>.*<title>|` +
		`\b(required|pattern=|min=|max=|style=|step=)|type="(number|date|time|datetime-local|month|week|color|file|range|search|email|url|tel|password)"`)
	coloured := regexp.MustCompile(`#[0-9a-fA-F]{2}[0-9a-fA-F]*[1-9a-fA-F][0-9a-fA-F]*\b`)
	style := ""
	for _, path := range paths {
		a := h.red(path)
		if found := native.FindString(a.Text); found != "" {
			t.Errorf("%s: %q", path, found)
		}
		for _, form := range regexp.MustCompile(`<form [^>]*>`).FindAllString(a.Text, -1) {
			if !strings.Contains(form, "novalidate") {
				t.Errorf("%s: %s may show the browser's own bubbles", path, form)
			}
		}
		ground, sheet := strings.Index(a.Text, "background:#000"), strings.Index(a.Text, `rel="stylesheet"`)
		if ground < 0 || ground > 300 || sheet < ground || !strings.Contains(a.Text, `<meta name="color-scheme" content="dark">`) {
			t.Errorf("%s: the ground stands at byte %d, the style sheet at %d", path, ground, sheet)
		}
		style = first(t, hrefs(a.Text), "/assets/")
	}
	_, css, ok := strings.Cut(h.get(style).Text, "/* The red form")
	if !ok {
		t.Error("the style sheet has no red part")
	}
	for _, c := range coloured.FindAllString(css, -1) {
		if len(c) == 7 && c[3:] != "0000" {
			t.Errorf("the red style sheet has %s", c)
		}
	}
}

// red gets a page in the red form.
func (h *house) red(path string) answer {
	h.t.Helper()
	r := h.request(http.MethodGet, path, nil)
	r.Header.Set("Cookie", "form=red")
	return h.ask(r)
}

// slow hands on to a house, its style sheets late: whatever flashes has the time to.
func slow(t *testing.T, h *house) string {
	t.Helper()
	u, err := url.Parse(h.URL)
	if err != nil {
		t.Fatal(err)
	}
	to := httputil.NewSingleHostReverseProxy(u)
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if strings.HasPrefix(r.URL.Path, "/assets/") {
			time.Sleep(150 * time.Millisecond)
		}
		r.Header["X-Forwarded-For"] = nil // as if nobody stood between: a home is asked straight
		to.ServeHTTP(w, r)
		if strings.HasPrefix(r.URL.Path, "/assets/") {
			w.Header().Set("Cache-Control", "no-store")
		}
	}))
	t.Cleanup(s.Close)
	return s.URL
}

// From page to page, back, and through an error: each frame that the browser puts out is red alone.
func TestRedFromPageToPage(t *testing.T) {
	t.Parallel()
	h, _ := redHouse(t)
	p := inRed(t, slow(t, h), browsertest.Phone())
	frames, err := p.Film(func() error {
		for _, path := range []string{"/", "/shelf", "/sink", "/mix", "/nowhere", "/wash?material=FB+paper&prints=x", "/baths"} {
			if err := p.Tab.Go(path); err != nil {
				return err
			}
		}
		p.Click("link", "One jug")
		p.Reach("/jug")
		run(t, p, "scrollTo(0, 400), history.back()")
		p.Reach("/baths")
		p.Click("link", "White light")
		p.See("Is all paper put away?")
		p.Click("link", "Not yet")
		p.Reach("/baths")
		return nil
	}, 300*time.Millisecond)
	if err != nil {
		t.Fatal(err)
	}
	if len(frames) < 5 {
		t.Errorf("%d frames only", len(frames))
	}
	for i, f := range frames {
		judge(t, f, "frame "+string(rune('0'+i/10))+string(rune('0'+i%10)), false)
	}
	t.Logf("%d frames", len(frames))
}

// A page that was seen in white light comes back in red, also by the browser's own way back.
func TestBackIsRed(t *testing.T) {
	h := withExample(t)
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	p.Go("/shelf")
	p.Go("/plan")
	p.Click("button", "Red light")
	p.Reach("/red")
	for range 2 {
		run(t, p, "history.back()")
	}
	p.Reach("/shelf")
	look(t, p, "back to the shelf")
}

// White light is asked about; then the pages are white again, and paper is black on white in both forms.
func TestWhiteAgain(t *testing.T) {
	h := withExample(t)
	p := inRed(t, h.URL, browsertest.Phone())
	paper := browsertest.Desk()
	paper.Paper = true
	p.Go("/mix")
	p.LookAs(paper)
	const colours = "(e => getComputedStyle(e).color + ' ' + getComputedStyle(document.body).backgroundColor)(document.querySelector('h1'))"
	red, err := browsertest.Eval[string](p.Tab, colours)
	if err != nil || red != "rgb(20, 23, 26) rgba(0, 0, 0, 0)" {
		t.Errorf("on paper the red form is %s, %v", red, err)
	}
	p.LookAs(browsertest.Phone())
	p.Click("link", "White light")
	p.See("Is all paper put away?")
	p.Click("button", "The paper is away")
	p.Reach("/mix")
	shot, err := p.Screenshot(0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := browsertest.RedAlone(shot, 255); err == nil {
		t.Error("the page is red still")
	}
	for _, path := range []string{"/mix.pdf", "/darkroom.yaml"} {
		if a := h.red(path); a.Header.Get("Location") != "/red/white?back="+url.QueryEscape(path) {
			t.Errorf("%s in the red form: %d to %s", path, a.StatusCode, a.Header.Get("Location"))
		}
	}
}

// A form of another site is refused in red, too.
func TestRefusedInRed(t *testing.T) {
	h := withExample(t)
	r := h.request(http.MethodPost, "/plan/load/new", strings.NewReader(""))
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	r.Header.Set("Cookie", "form=red")
	if a := h.ask(r); a.StatusCode != http.StatusForbidden || !strings.Contains(a.Text, `bgcolor="#000000"`) {
		t.Errorf("%d\n%s", a.StatusCode, a.Text)
	}
}
