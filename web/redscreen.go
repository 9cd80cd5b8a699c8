package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"wetside/access"
	"wetside/words"
)

// screenCookie keeps on a device how its screen did with the coin.
const screenCookie = "screen"

// The longest wait and name that a test of a screen is told with: an hour is longer than any sheet lies open (common
// practice waits 5 to 10 minutes), and a cookie is to stay small.
const (
	longestWait  = 60
	longestPaper = 40
)

// A screenTest is what the coin on flashed paper showed under this screen. The zero value is: not tested.
type screenTest struct {
	Day     time.Time
	Paper   string // as the user names it
	Minutes int    // that it lay under the screen
	Seen    bool   // the coin could be seen: the screen fogs this paper
}

func (t screenTest) cookie() string {
	if t.Minutes == 0 {
		return "untested"
	}
	return url.Values{
		"day": {t.Day.Format(time.DateOnly)}, "paper": {t.Paper}, "minutes": {strconv.Itoa(t.Minutes)}, "seen": {strconv.FormatBool(t.Seen)},
	}.Encode()
}

// readScreen reads what a device keeps; what can't be read is no test.
func readScreen(r *http.Request) screenTest {
	c, err := r.Cookie(access.CookieName(r, screenCookie))
	if err != nil {
		return screenTest{}
	}
	q, err := url.ParseQuery(c.Value)
	if err != nil {
		return screenTest{}
	}
	day, dayErr := time.Parse(time.DateOnly, q.Get("day"))
	minutes, minutesOK := readWait(q.Get("minutes"))
	seen, seenErr := strconv.ParseBool(q.Get("seen"))
	paper, paperOK := readPaper(q.Get("paper"))
	if dayErr != nil || seenErr != nil || !minutesOK || !paperOK {
		return screenTest{}
	}
	return screenTest{day, paper, minutes, seen}
}

func readWait(s string) (minutes int, ok bool) {
	minutes, err := strconv.Atoi(strings.TrimSpace(s))
	return minutes, err == nil && minutes >= 1 && minutes <= longestWait
}

func readPaper(s string) (name string, ok bool) {
	name = strings.Join(strings.Fields(s), " ")
	return name, name != "" && utf8.ValidString(name) && utf8.RuneCountInString(name) <= longestPaper
}

// screenSays is one line on this device's screen.
func (v *visit) screenSays(r *http.Request) words.Phrase {
	t := readScreen(r)
	if t.Minutes == 0 {
		return v.say.Tell("red.untested")
	}
	key := "red.held"
	if t.Seen {
		key = "red.fogs"
	}
	return v.say.Tell(key, "Day", v.say.DayYear(t.Day), "Paper", t.Paper, "Wait", v.say.Count("minutes", t.Minutes))
}

type redPage struct {
	frame
	On             string // where one was going
	Before, Steps  []words.Phrase
	Paper, Minutes field
}

// tellRed says what a red page cannot do, and how this screen is tested.
func (s *server) tellRed(r *http.Request, v *visit) error {
	t := readScreen(r)
	minutes := ""
	if t.Minutes > 0 {
		minutes = strconv.Itoa(t.Minutes)
	}
	return v.show(http.StatusOK, "red", v.redPage(r, t.Paper, minutes))
}

func (v *visit) redPage(r *http.Request, paper, minutes string) *redPage {
	p := &redPage{
		frame:   v.frame(r, "red"),
		On:      local(r.FormValue("back")),
		Paper:   field{Name: "paper", Label: v.say.Label("screen_paper"), Value: paper},
		Minutes: field{Name: "minutes", Label: v.say.Label("screen_minutes"), Value: minutes, Hint: v.say.Label("hint_screen_minutes"), Mode: "numeric"},
	}
	for _, key := range []string{"leaks", "outside", "keyboard", "film"} {
		p.Before = append(p.Before, v.say.Tell("red."+key))
	}
	for _, key := range []string{"card_as_used", "card_flash", "card_coin", "card_wait", "card_develop", "card_look"} {
		p.Steps = append(p.Steps, v.say.Tell("red."+key))
	}
	return p
}

// screenTested keeps on the device what the coin showed.
func (s *server) screenTested(r *http.Request, v *visit) error {
	p := v.redPage(r, r.PostFormValue("paper"), r.PostFormValue("minutes"))
	paper, paperOK := readPaper(p.Paper.Value)
	minutes, minutesOK := readWait(p.Minutes.Value)
	if !paperOK {
		p.Paper.Problem = v.say.Tell("red.which_paper").Text()
	}
	if !minutesOK {
		p.Minutes.Problem = v.say.Tell("red.which_minutes").Text()
	}
	if !paperOK || !minutesOK {
		return v.show(http.StatusUnprocessableEntity, "red", p)
	}
	t := screenTest{v.s.Now(), paper, minutes, r.PostFormValue("seen") != "no"}
	v.keep(r, screenCookie, t.cookie())
	return v.to(r, "/red?"+url.Values{"back": {p.On}}.Encode())
}
