package darkroom

import (
	"time"

	"wetside/trade/dilution"
	"wetside/trade/material"
)

func personKind() kind[Person] {
	anything := func(string) bool { return true }
	return thing([]field[Person]{
		must(at("name", "Who it is.", func(p *Person) *string { return &p.Name }, text())),
		at("does", "What the person does here.", func(p *Person) *[]string { return &p.Does }, line(list(text()))),
		at("notes", "Into the erasable record, never exported.",
			func(p *Person) *[]string { return &p.Notes }, line(list(words("text", anything)))),
	})
}

func sessionKind() kind[Session] {
	return thing([]field[Session]{
		at("starts", "When it starts, by the room's clock.", func(s *Session) *As[time.Time] { return &s.Starts }, as(start())),
		at("lasts", "How long it lasts.", func(s *Session) *As[time.Duration] { return &s.Lasts }, as(duration(7*24*time.Hour, "168 h"))),
		at("people", "How many print.", func(s *Session) *int { return &s.People }, counted(count(1, maxPeople))),
		at("to_make", "Everything that goes through the baths.", func(s *Session) *[]Load { return &s.ToMake }, list(line(loadKind()))),
	})
}

func loadKind() kind[Load] {
	fields := []field[Load]{
		must(at("material", "What it is.", func(l *Load) *material.Material { return &l.Material }, chosen("material", materials()))),
		at("size", "8x10 in, 24x30 cm, or a roll's name: 135-36, 135-24, 120.",
			func(l *Load) *As[material.Size] { return &l.Size }, as(size())),
		at("sheets", "How many sheets, strips apart.", func(l *Load) *int { return &l.Sheets }, counted(count(1, maxSheets))),
		at("rolls", "How many rolls.", func(l *Load) *int { return &l.Rolls }, counted(count(1, maxSheets))),
		at("strips", "How many test strips.", func(l *Load) *int { return &l.Strips }, counted(count(0, maxSheets))),
	}
	fields = append(fields, wantedFields(func(l *Load) *Wanted { return &l.Wanted })...)
	return thing(append(fields, []field[Load]{
		at("dilution", "The developer's, where it is not the label's.",
			func(l *Load) *As[dilution.Dilution] { return &l.Dilution }, as(diluted())),
		at("time", "The developer's, where it is not the label's.",
			func(l *Load) *As[time.Duration] { return &l.Time }, as(duration(24*time.Hour, "24 h"))),
		at("agitation", "How it is moved, where it is not as the label says.", func(l *Load) *string { return &l.Agitation }, text()),
		at("product", "A developer by name, where several would do.", func(l *Load) *string { return &l.Product }, text()),
	}...), loadRules()...)
}
