package store_test

import (
	"fmt"
	"time"

	"wetside/book"
)

// eveningOf is how many entries an evening of a long book has.
const eveningOf = 240

// load returns an entry of a long book, a room that works every day: forty prints through developer, stop and fixer into the wash,
// loads that were tapped together, probes, tests, a list gone through, a bottle drawn from, a slip taken back; the developer goes
// every evening, the fixer every fifth, and then into a can.
func load(i int) book.Entry {
	if i < len(roomOfLong) {
		return longEntry(i, roomOfLong[i].kind, roomOfLong[i].body)
	}
	evening, k := i/eveningOf, i%eveningOf
	l := longEvening{i: i, evening: evening}
	switch {
	case k < 12:
		return l.opens(k)
	case k < 212:
		return l.print((k-12)/5, (k-12)%5)
	case k < 222:
		return l.entry(book.BathWorked, `{"baths":[%q,%q,%q],"material":"RC paper","size":%q,"sheets":%d}`, l.bath('d'), l.bath('s'), l.bath('f'),
			[]string{"8x10 in", "5x7 in", "11x14 in", "24x30 cm"}[i%4], 1+i%12)
	default:
		return l.closes(k)
	}
}

var roomOfLong = []struct {
	kind book.Kind
	body string
}{
	{book.RoomSet, `{"part":"room","as":{"name":"Ropewalk Darkroom"}}`},
	{book.ProductSet, `{"part":"product","id":"dev","as":{"name":"print developer","role":"developer","form":"liquid","dilutions":{"RC paper":"1+9"}}}`},
	{book.ProductSet, `{"part":"product","id":"stop","as":{"name":"stop","role":"stop bath","form":"liquid","dilutions":{"RC paper":"1+19"}}}`},
	{book.ProductSet, `{"part":"product","id":"fix","as":{"name":"rapid fixer","role":"fixer","form":"liquid","dilutions":{"RC paper":"1+4"}}}`},
	{book.CanSet, `{"part":"can","id":"can","as":{"name":"fixer can","takes":"fixer","holds":"25 L"}}`},
}

type longEvening struct{ i, evening int }

func longID(prefix byte, n int) string {
	return fmt.Sprintf("0192f0c4-7d5e-7cc3-98c4-%c%011d", prefix, n)
}

func longEntry(i int, kind book.Kind, body string) book.Entry {
	return book.Entry{
		ID: longID('e', i), Kind: kind, Version: 1, By: "p1", Device: "d1", Body: body,
		HappenedAt: evening.AddDate(0, 0, i/eveningOf).Add(time.Duration(i%eveningOf) * time.Minute),
	}
}

func (l longEvening) entry(kind book.Kind, body string, args ...any) book.Entry {
	return longEntry(l.i, kind, fmt.Sprintf(body, args...))
}

// bath is the developer, the stop bath or the fixer of the evening.
func (l longEvening) bath(which byte) string {
	if which == 'f' {
		return longID('f', l.evening/5)
	}
	return longID(which, l.evening)
}

func (l longEvening) session() string { return longID('v', l.evening) }

// lot is the bottle of the month.
func (l longEvening) lot() string { return longID('l', l.evening/30) }

func (l longEvening) probe() book.Entry {
	if l.i%2 == 0 {
		return l.entry(book.TemperatureRead, `{"probe":"probe","bath":%q,"reads":"20.4 °C"}`, l.bath('d'))
	}
	return l.entry(book.TemperatureRead, `{"probe":"air","place":"room","reads":"19 °C"}`)
}

func (l longEvening) tick(item int) book.Entry {
	return l.entry(book.ListTicked, `{"session":%q,"list":"opening","item":"item%d"}`, l.session(), item)
}

func (l longEvening) opens(k int) book.Entry {
	switch {
	case k == 5 && l.evening%30 == 0:
		return l.entry(book.Received, `{"lot":%q,"product":"dev","as":{"product":"print developer","holds":"5 L"}}`, l.lot())
	case k == 6:
		return l.entry(book.SessionOpened, `{"session":%q,"shared":true}`, l.session())
	case k == 7:
		return l.entry(book.BathMixed, `{"bath":%q,"product":"dev","dilution":"1+9","volume":"2 L","from":[{"lot":%q,"amount":"200 mL"}]}`, l.bath('d'), l.lot())
	case k == 8:
		return l.entry(book.BathMixed, `{"bath":%q,"product":"stop","dilution":"1+19","volume":"2 L"}`, l.bath('s'))
	case k == 9 && l.evening%5 == 0:
		return l.entry(book.BathMixed, `{"bath":%q,"product":"fix","dilution":"1+4","volume":"2 L"}`, l.bath('f'))
	case k == 10:
		return l.entry(book.SessionJoined, `{"session":%q,"person":"p2"}`, l.session())
	}
	return l.tick(k)
}

// print is one entry of a print's way.
func (l longEvening) print(n, step int) book.Entry {
	id := longID('p', l.evening*40+n)
	switch step {
	case 0:
		return l.entry(book.PrintBegan, `{"print":%q,"of":"p2","session":%q,"material":"RC paper","size":"8x10 in","sheets":1,"step":"develop","bath":%q,"for":"60 s"}`,
			id, l.session(), l.bath('d'))
	case 1:
		return l.entry(book.PrintPut, `{"print":%q,"step":"stop","bath":%q,"for":"15 s"}`, id, l.bath('s'))
	case 2:
		return l.entry(book.PrintPut, `{"print":%q,"step":"fix","bath":%q,"for":"45 s"}`, id, l.bath('f'))
	case 3:
		return l.entry(book.PrintPut, `{"print":%q,"step":"wash","batch":%q,"for":"4 min"}`, id, longID('w', l.evening))
	}
	return l.entry(book.PrintOut, `{"print":%q}`, id)
}

func (l longEvening) closes(k int) book.Entry {
	switch {
	case k == 222:
		return l.entry(book.BathTested, `{"bath":%q,"test":"drop test","result":"passed"}`, l.bath('f'))
	case k == 223:
		return l.entry(book.BatchWashed, `{"batch":%q,"step":"done","way":"running"}`, longID('w', l.evening))
	case k == 224 && l.evening%4 == 0:
		return l.entry(book.BathTested, `{"batch":%q,"test":"residual thiosulfate","result":"passed"}`, longID('w', l.evening))
	case k == 225 && l.evening%2 == 0:
		e := l.entry(book.Correction, `{}`)
		e.TakesBack = longID('e', l.i-8)
		return e
	case k == 226:
		return l.entry(book.BathDiscarded, `{"bath":%q,"to":"drain"}`, l.bath('d'))
	case k == 227:
		return l.entry(book.BathDiscarded, `{"bath":%q,"to":"drain"}`, l.bath('s'))
	case k == 228 && l.evening%5 == 4:
		return l.entry(book.BathDiscarded, `{"bath":%q,"to":"collected","can":"can"}`, l.bath('f'))
	case k == 228:
		return l.entry(book.BathPouredBack, `{"bath":%q,"into":"full bottle"}`, l.bath('f'))
	case k == 229 && l.evening%50 == 0:
		return l.entry(book.WasteTaken, `{"can":"can"}`)
	case k == 230:
		return l.entry(book.NoteLeft, `{"session":%q,"note":%q}`, l.session(), longID('n', l.evening))
	case k == 231 && l.evening%30 == 29:
		return l.entry(book.Discarded, `{"lot":%q}`, l.lot())
	case k == 239:
		return l.entry(book.SessionClosed, `{"session":%q}`, l.session())
	}
	return l.probe()
}
