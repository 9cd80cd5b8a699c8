package web_test

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"wetside/access"
	"wetside/book"
)

// who is a member with their device and their id.
type member struct {
	*device
	id string
}

func (h *house) member(ilka *device, name string) member {
	h.t.Helper()
	d, _ := ilka.key(access.Member, name)
	people, err := h.book.People(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	for id, p := range people {
		if p.Name == name {
			return member{d, id}
		}
	}
	h.t.Fatalf("%s is nobody", name)
	return member{}
}

// sends posts a form and wants a status.
func (d *device) sends(want int, path string, form url.Values) answer {
	d.t.Helper()
	a := d.do(http.MethodPost, path, form)
	if a.StatusCode != want {
		d.t.Errorf("%s %v: %d, want %d %s", path, form, a.StatusCode, want, problemsOf(a.Text))
	}
	return a
}

// lotsOf are the ids of the lots of an owner, of bathsOf those of the baths that stand.
func (h *house) lotsOf(whose string) (lots []string) {
	h.t.Helper()
	s, err := h.book.State(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	for _, l := range s.Lots() {
		if l.Whose == whose && l.Gone == book.There {
			lots = append(lots, l.ID)
		}
	}
	return lots
}

func (h *house) bathsOf(whose string) (baths []string) {
	h.t.Helper()
	s, err := h.book.State(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	for _, b := range s.Baths() {
		if b.Mixed.Whose == whose && b.Gone == nil {
			baths = append(baths, b.ID)
		}
	}
	return baths
}

// ownDeveloper puts a developer of the member's own on the shelf, and a bottle of it.
func (m member) ownDeveloper() string {
	m.t.Helper()
	m.sends(http.StatusSeeOther, "/shelf/product/new", url.Values{
		"name": {"warm developer"}, "role": {"developer"}, "dilutions.RC paper": {"1+7"}, "dilutions.FB paper": {"1+7"},
	})
	m.sends(http.StatusSeeOther, "/shelf/lot/new", url.Values{"product": {"warm developer"}, "holds": {"1 L"}})
	lots := m.lotsOf(m.id)
	if len(lots) != 1 {
		m.t.Fatalf("the member has %d bottles", len(lots))
	}
	return lots[0]
}

// A member's day: they put their own bottle on the shelf, see it first, count and open it, plan and mix from it; the room does not plan
// with it; another member sees it and changes nothing of it. What people who bring their own chemistry do in shared rooms.
func TestMembersDay(t *testing.T) {
	h, ilka := shared(t)
	wanda, xaver := h.member(ilka, "Wanda"), h.member(ilka, "Xaver")
	page := wanda.do(http.MethodGet, "/shelf", nil).Text
	if !strings.Contains(page, "Yours") || !strings.Contains(page, "You have no bottle here") || strings.Contains(page, "/discarded") {
		t.Error("a member without bottles is not told how to put one here, or may discard the room's")
	}
	lot := wanda.ownDeveloper()
	page = wanda.do(http.MethodGet, "/shelf", nil).Text
	if strings.Index(page, "Yours") > strings.Index(page, "The room’s") || strings.Count(page, "/discarded") != 1 {
		t.Error("theirs do not stand first, or not they alone can be changed")
	}
	if page = ilka.do(http.MethodGet, "/shelf", nil).Text; !strings.Contains(page, "Wanda’s") || strings.Index(page, "Wanda’s") < strings.Index(page, "The room’s") {
		t.Error("a keyholder does not see whose it is, after the room's")
	}
	if page = xaver.do(http.MethodGet, "/shelf", nil).Text; !strings.Contains(page, "Wanda’s") || strings.Contains(page, "/discarded") {
		t.Error("another member may discard it")
	}
	rooms, at := h.lotsOf("")[0], h.position()
	for _, do := range []string{"/opened", "/left", "/discarded"} {
		form := url.Values{"left": {"100 mL"}}
		if a := wanda.sends(http.StatusForbidden, "/shelf/lot/"+rooms+do, form); !strings.Contains(a.Text, "another member’s") {
			t.Errorf("%s: it is not said why", do)
		}
		xaver.sends(http.StatusForbidden, "/shelf/lot/"+lot+do, form)
	}
	product := regexp.MustCompile(`/shelf/product/[^"/]+`).FindString(ilka.do(http.MethodGet, "/shelf", nil).Text)
	wanda.sends(http.StatusForbidden, product, url.Values{"name": {"her own now"}, "role": {"developer"}, "form": {"liquid"}})
	wanda.sends(http.StatusForbidden, product+"/away", nil)
	wanda.sends(http.StatusForbidden, "/shelf/lot/"+rooms, url.Values{"product": {"warm developer"}, "holds": {"2 L"}})
	if h.position() != at {
		t.Fatalf("%d entries were written", h.position()-at)
	}
	wanda.sends(http.StatusSeeOther, "/shelf/lot/"+lot+"/opened", nil)
	wanda.sends(http.StatusSeeOther, "/shelf/lot/"+lot+"/left", url.Values{"left": {"900 mL"}})

	for name, c := range map[string]struct {
		d    *device
		path string
		want string
	}{
		"hers": {wanda.device, "/mix", "warm developer"}, "the room's, for her": {wanda.device, "/mix?for=room", ""},
		"the keyholder's": {ilka, "/mix", ""}, "another's": {xaver.device, "/mix", ""},
	} {
		if got := strings.Contains(c.d.do(http.MethodGet, c.path, nil).Text, "warm developer"); got != (c.want != "") {
			t.Errorf("%s plan takes her developer: %v", name, got)
		}
	}
	wanda.sends(http.StatusSeeOther, "/mix/developer/poured", nil)
	wanda.sends(http.StatusForbidden, "/mix/fixer/poured", nil)
	if len(h.bathsOf(wanda.id)) != 1 || len(h.bathsOf("")) != 0 {
		t.Fatalf("baths are %v and %v", h.bathsOf(wanda.id), h.bathsOf(""))
	}
	wanda.sends(http.StatusSeeOther, "/shelf/lot/"+lot+"/discarded", nil)
	if len(h.lotsOf(wanda.id)) != 0 {
		t.Error("the bottle stands there still")
	}
}

// A member does with the bath that they mixed what is done with baths, and with no other; it is said whose it is wherever it stands, on its
// label and on the closing list, and when the name is erased it is somebody's.
func TestMembersBath(t *testing.T) {
	h, ilka := shared(t)
	wanda, xaver := h.member(ilka, "Wanda"), h.member(ilka, "Xaver")
	wanda.ownDeveloper()
	ilka.sends(http.StatusSeeOther, "/mix/developer/poured", nil)
	wanda.sends(http.StatusSeeOther, "/mix/developer/poured", nil)
	hers, rooms := "/baths/"+h.bathsOf(wanda.id)[0], "/baths/"+h.bathsOf("")[0]
	if page := wanda.do(http.MethodGet, rooms, nil).Text; strings.Contains(page, rooms+"/away") || !strings.Contains(page, rooms+"/worked") {
		t.Error("the room's bath can be thrown away by her, or not be counted")
	}
	at := h.position()
	for _, do := range []struct {
		path string
		form url.Values
	}{{"/topped", url.Values{"poured": {"100 mL"}}}, {"/back", url.Values{"into": {"full bottle"}}}, {"/away", url.Values{"to": {"collected"}, "sure": {"yes"}, "position": {"1"}}}} {
		wanda.sends(http.StatusForbidden, rooms+do.path, do.form)
		xaver.sends(http.StatusForbidden, hers+do.path, do.form)
	}
	if h.position() != at {
		t.Fatalf("%d entries were written", h.position()-at)
	}
	ilka.do(http.MethodPost, "/evening", nil)
	if page := ilka.do(http.MethodGet, "/baths", nil).Text; !strings.Contains(page, rooms+"/worked") || strings.Contains(page, hers+"/worked") {
		t.Error("what goes through is counted on her bath, which is the younger")
	}
	for path, want := range map[string]string{
		"/baths": "Wanda’s", hers: "Wanda’s", "/labels": "Wanda, warm developer, 1 L", "/lists/closing": "is Wanda’s: it goes home with them",
	} {
		if page := ilka.do(http.MethodGet, path, nil).Text; !strings.Contains(page, want) {
			t.Errorf("%s does not say %q", path, want)
		}
	}
	wanda.sends(http.StatusSeeOther, hers+"/topped", url.Values{"poured": {"100 mL"}, "with": {"fresh"}})
	wanda.sends(http.StatusSeeOther, hers+"/back", url.Values{"into": {"part bottle"}})
	ask := wanda.sends(http.StatusConflict, hers+"/away", url.Values{"to": {"home"}})
	position := regexp.MustCompile(`name="position" value="(\d+)"`).FindStringSubmatch(ask.Text)
	if position == nil || !strings.Contains(ask.Text, "is carried home?") {
		t.Fatal("it is not asked whether it is carried home")
	}
	ilka.sends(http.StatusSeeOther, "/people/"+wanda.id+"/away", url.Values{"sure": {"yes"}})
	if page := ilka.do(http.MethodGet, "/shelf", nil).Text; !strings.Contains(page, "Somebody’s") || strings.Contains(page, "Wanda") {
		t.Error("after her name was erased her bottle is not somebody's")
	}
	if a := wanda.do(http.MethodPost, hers+"/away", url.Values{"to": {"home"}, "sure": {"yes"}, "position": position[1:]}); a.StatusCode == http.StatusOK || h.bathsOf(wanda.id) == nil {
		t.Errorf("with an erased name her key still opens: %d", a.StatusCode)
	}
}

// A keyholder says whose a bottle is, of members who own nothing yet, too, and takes one over for the room; a home asks nobody.
func TestKeyholderSaysWhose(t *testing.T) {
	h, ilka := shared(t)
	if page := h.get("/shelf/lot/new").Text; strings.Contains(page, `name="whose"`) {
		t.Error("a home asks whose a bottle is")
	}
	wanda := h.member(ilka, "Wanda")
	form := ilka.do(http.MethodGet, "/shelf/lot/new", nil).Text
	if !regexp.MustCompile(`(?s)<select[^>]*name="whose".*?<option value=""[^>]*>The room’s.*?<option value="Wanda">`).MatchString(form) {
		t.Error("the form does not offer the room and Wanda")
	}
	if page := wanda.do(http.MethodGet, "/shelf/lot/new", nil).Text; strings.Contains(page, `name="whose"`) {
		t.Error("a member is asked whose their bottle is")
	}
	product := regexp.MustCompile(`<h2><a class="tall" href="/shelf/product/[^"]+">([^<]+)</a>`).FindStringSubmatch(ilka.do(http.MethodGet, "/shelf", nil).Text)[1]
	ilka.sends(http.StatusSeeOther, "/shelf/lot/new", url.Values{"product": {product}, "holds": {"1 L"}, "whose": {"Wanda"}})
	if len(h.lotsOf(wanda.id)) != 1 {
		t.Fatal("it is not Wanda's")
	}
	a := ilka.sends(http.StatusUnprocessableEntity, "/shelf/lot/new", url.Values{"product": {product}, "holds": {"1 L"}, "whose": {"Wnada"}})
	if !strings.Contains(a.Text, "Nobody here is called ‘Wnada’") {
		t.Error("a wrong name is not told at its field")
	}
	ilka.sends(http.StatusSeeOther, "/shelf/lot/"+h.lotsOf(wanda.id)[0], url.Values{"product": {product}, "holds": {"1 L"}})
	if len(h.lotsOf(wanda.id)) != 0 {
		t.Error("it is not the room's")
	}
}

// Whoever brings a bottle of what the room has, too, puts it beside the room's by the link that stands there.
func TestABottleOfTheSame(t *testing.T) {
	h, ilka := shared(t)
	if err := h.book.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	m := h.member(ilka, "Wanda")
	link := regexp.MustCompile(`href="(/shelf/lot/new\?product=rapid\+fixer)">A bottle of mine<`)
	found := link.FindStringSubmatch(html.UnescapeString(m.do(http.MethodGet, "/shelf", nil).Text))
	if found == nil {
		t.Fatal("nothing leads to a bottle of one's own beside the room's")
	}
	if page := m.do(http.MethodGet, found[1], nil); page.StatusCode != http.StatusOK || !strings.Contains(page.Text, "rapid fixer") {
		t.Errorf("it leads to %d", page.StatusCode)
	}
	m.sends(http.StatusSeeOther, found[1], url.Values{"product": {"rapid fixer"}, "holds": {"1 L"}})
	if lots := h.lotsOf(m.id); len(lots) != 1 {
		t.Errorf("%d bottles are Wanda's", len(lots))
	}
	if page := ilka.do(http.MethodGet, "/shelf", nil).Text; strings.Contains(page, "A bottle of mine") {
		t.Error("a keyholder is offered what is a member's")
	}
}
