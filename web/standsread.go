package web

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// foundBath is a bath that stands already, as a form tells of it.
type foundBath struct {
	v        *visit
	form     map[string]string
	problems map[string]string // by field, in the reader's words

	body  book.Mixed
	at    time.Time         // when it was made, now for an unknown age
	fresh *darkroom.Product // what the shelf lacks; nil: the shelf has it
	role  process.Role
	label string // its product's dilution for what it is for, where the shelf says one
}

// largestBath is the most that a bath is taken for: a tray for a sheet of 50×60 in holds some 30 L. From memory.
const largestBath = 200 * quantity.Litre

// readStands reads a form. What is wrong stands in problems, all of it at once.
func (v *visit) readStands(form map[string]string) *foundBath {
	f := &foundBath{v: v, form: form, problems: map[string]string{}, at: v.s.Now()}
	f.body = book.Mixed{
		Bath: v.s.NewID(), Dilution: form["dilution"], Volume: form["volume"], Ounce: book.OunceOf(v.file.Darkroom.Ounce),
		For: book.Serves(form["for"]), Place: darkroom.Bath(form["place"]),
	}
	if f.body.For != book.ServesAny && f.body.For != book.ServesPaper && f.body.For != book.ServesFilm {
		f.noWord("for")
	}
	f.product()
	f.readDilution()
	f.volume()
	f.where()
	f.place()
	f.before()
	f.made()
	return f
}

func (f *foundBath) wrong(field, key string, pairs ...string) {
	f.problems[field] = f.v.say.Tell("stands."+key, append(pairs, "Found", quantity.Shown(f.form[field]))...).Text()
}

// noWord refuses a word that no field of ours has.
func (f *foundBath) noWord(field string) { f.wrong(field, "no_word") }

// product finds the product, or makes one of its role that the shelf lacks.
func (f *foundBath) product() {
	word := f.form["product"]
	switch {
	case word == "":
		f.wrong("product", "product")
		return
	case !offered(f.v.standsProducts(), word):
		f.noWord("product")
		return
	}
	if id, shelf := strings.CutPrefix(word, isProduct); shelf {
		p, _ := f.v.state.Product(id)
		f.body.Product, f.role = id, p.Role
		for _, m := range f.serves() {
			if d := p.Dilutions[m]; d.Given() && f.label == "" {
				f.label = d.Text
			}
		}
		return
	}
	role := strings.TrimPrefix(word, isRole)
	f.role, _ = process.ReadRole(role)
	form := map[string]string{"name": f.v.freeProduct(f.role), "role": role}
	fillProduct(form)
	p, err := darkroom.ReadForm[darkroom.Product](f.v.file, darkroom.New, form)
	if problems, ok := errors.AsType[darkroom.Problems](err); ok {
		f.problems["product"] = f.v.say.Problem(problems[0]).Text()
		return
	}
	f.fresh, f.body.Product = &p, f.v.s.NewID()
}

// serves are the materials that a bath is for.
func (f *foundBath) serves() []material.Material {
	switch f.body.For {
	case book.ServesFilm:
		return []material.Material{material.Film}
	case book.ServesPaper:
		return []material.Material{material.RC, material.FB}
	case book.ServesAny:
	}
	return material.All()
}

// readDilution reads the dilution; where nothing is written, it is the label's.
func (f *foundBath) readDilution() {
	if f.body.Dilution == "" {
		f.body.Dilution = f.label
	}
	if f.body.Dilution == "" {
		f.wrong("dilution", "dilution")
		return
	}
	if _, err := dilution.Read(f.body.Dilution, dilution.Options{Ounce: f.v.ounce()}); err != nil {
		f.problems["dilution"] = f.v.say.ReadError(err).Text()
	}
}

func (f *foundBath) volume() {
	text := f.body.Volume
	vol, err := quantity.ReadVolume(text, f.v.ounce())
	switch {
	case err == nil && vol <= 0:
		err = quantity.NewReadError(text, 0, "volume", quantity.WhyNotPositive)
	case err == nil && vol > largestBath:
		f.wrong("volume", "volume", "Most", f.v.say.Volume(largestBath))
	}
	if err != nil {
		f.problems["volume"] = f.v.say.ReadError(err).Text()
	}
}

// where reads what it stands in: a tray, a tank, a kind of bottle, or nothing said.
func (f *foundBath) where() {
	word := f.form["where"]
	if !offered(f.v.standsWhere(), word) {
		f.noWord("where")
		return
	}
	tray, isTray := strings.CutPrefix(word, inTray)
	tank, isTank := strings.CutPrefix(word, inTank)
	switch {
	case isTray:
		f.body.Tray = tray
	case isTank:
		f.body.Tank = tank
	default:
		f.body.Into = darkroom.State(word)
	}
}

// place reads which of two fixers it is, and finds the other.
func (f *foundBath) place() {
	switch f.body.Place {
	case "":
	case darkroom.BathFirst, darkroom.BathSecond:
		if f.role != process.Fixer && f.problems["product"] == "" {
			f.wrong("place", "place")
			return
		}
		f.body.Pair = f.v.partner(f.body.Place, f.body.For)
	default:
		f.noWord("place")
	}
}

// made reads when it was made; a day that is written goes before what is ticked from the first. Of a bath of which nobody
// knows what it did, the book holds no age: with one it would be taken to have done nothing.
func (f *foundBath) made() {
	text, how := f.form["day"], f.form["made"]
	if text != "" && (how == "" || how == nobodyKnows) {
		how = madeDay
	}
	switch how {
	case madeToday, madeDay:
		f.body.Made = book.MadeEstimated
		f.day(text, how == madeToday)
	case nobodyKnows:
		f.body.Made = book.MadeUnknown
	case "":
		f.wrong("made", "made")
	default:
		f.noWord("made")
	}
	if len(f.body.Before) == 0 && f.form["before"] != beforeNone {
		f.body.Made, f.at = book.MadeUnknown, f.v.s.Now()
	}
}

// oldestBath is how many years ago a bath may have been made: one that is older is a slip of the pen.
const oldestBath = 50

// day reads a day, a day with its time, or a time of today; noon of a day without a time.
func (f *foundBath) day(text string, today bool) {
	now := f.v.s.Now()
	if text == "" {
		if !today {
			f.wrong("day", "day", "Day", now.Format(time.DateOnly))
		}
		return
	}
	at, err := readMade(text, now)
	same := at.Format(time.DateOnly) == now.Format(time.DateOnly)
	if err == nil && same && !strings.Contains(text, ":") {
		at = now
	}
	switch {
	case err != nil:
		f.wrong("day", "no_day", "Day", now.Format(time.DateOnly))
	case at.After(now):
		f.wrong("day", "day_to_come")
	case at.Before(now.AddDate(-oldestBath, 0, 0)):
		f.wrong("day", "day_too_old")
	case today && !same:
		f.wrong("day", "day_not_today")
	default:
		f.at = at
	}
}

// readMade reads 2026-03-10, 2026-03-10 09:30 or 09:30, in the room's own zone.
func readMade(text string, now time.Time) (at time.Time, err error) {
	if at, err = time.ParseInLocation(time.DateOnly, text, now.Location()); err == nil {
		return at.Add(12 * time.Hour), nil
	}
	if at, err = time.ParseInLocation("2006-01-02 15:04", text, now.Location()); err == nil {
		return at, nil
	}
	if at, err = time.ParseInLocation("15:04", text, now.Location()); err == nil {
		return time.Date(now.Year(), now.Month(), now.Day(), at.Hour(), at.Minute(), 0, 0, now.Location()), nil
	}
	return at, err
}

// before reads a guess of what went through; a number that is written goes before what is ticked from the first.
func (f *foundBath) before() {
	how, sheets := f.form["before"], f.form["sheets"]
	if sheets != "" && (how == "" || how == nobodyKnows) {
		how = beforeGuess
	}
	switch how {
	case beforeGuess:
		f.guess(sheets)
	case beforeNone:
		if sheets != "" {
			f.wrong("sheets", "sheets_and_none")
		}
	case nobodyKnows:
	case "":
		f.wrong("before", "before")
	default:
		f.noWord("before")
	}
}

// guess reads how many of what size went through.
func (f *foundBath) guess(text string) {
	n, err := strconv.Atoi(text)
	switch {
	case text == "":
		f.wrong("sheets", "sheets")
	case err != nil:
		f.wrong("sheets", "no_sheets")
	}
	m, badMaterial := material.Read(f.form["of"])
	if badMaterial != nil {
		f.noWord("of")
	}
	size, badSize := material.ReadSize(withInches(f.form["size"]))
	roll := size.Roll != material.NoRoll
	switch {
	case badSize != nil:
		f.problems["size"] = f.v.say.ReadError(badSize).Text()
	case roll && badMaterial == nil && m != material.Film:
		f.wrong("size", "roll_of_paper")
	}
	if f.problems["sheets"]+f.problems["size"]+f.problems["of"] != "" {
		return
	}
	p, err := book.ReadPrints(strings.Join([]string{"about", strconv.Itoa(n), size.String(), m.String()}, " "))
	if err != nil {
		f.problems["sheets"] = f.v.unreadable(err)
		return
	}
	f.body.Before = []book.Prints{p}
}
