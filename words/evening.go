package words

import (
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/sink"
	"wetside/trade/material"
)

// ListItem says something to do at the start of an evening or at its end.
func (v *Voice) ListItem(x sink.Item) Phrase {
	a := args{"Bath": "", "Tray": own(x.Tray), "Test": ""}
	switch {
	case x.Bath != nil:
		a["Bath"] = v.BathCalled(*x.Bath)
	case x.Planned != nil:
		a["Bath"], a["Tray"] = v.bath(*x.Planned), own(x.Planned.Tray) // film baths wait in bottles
	case x.Station != nil:
		a["Bath"] = own(v.BathName(x.Station.Step, material.RC))
	}
	if x.Test != "" {
		a["Test"] = v.TestName(x.Test)
	}
	key := "list_item." + string(x.Kind)
	a["Names"], a["Can"] = v.ownNames(x.Names), ""
	switch x.Kind {
	case sink.ItemWent:
		a["Bath"], a["Can"] = own(x.Names[0]), own(x.Names[1])
		key += "_" + string(x.How)
	case sink.ItemHome:
		a["Names"] = own(v.Owner(x.Names[0]))
	case sink.ItemShelf:
		a["Names"] = v.taken(x.Taken)
	default:
	}
	if x.Count > 0 {
		return phrase(sentence(v.sayN(key, x.Count, a)))
	}
	return phrase(sentence(v.say(key, a)))
}

// ClosingWhy says why a bath ends its evening so; empty for what is no bath.
func (v *Voice) ClosingWhy(x *sink.Item) Phrase {
	switch o := x.Outlook; {
	case o == nil:
		return nil
	case x.Kind == sink.ItemBack || o.OutOfUse():
		return v.Outlook(*o)
	case o.Lead.Kind == ahead.OneShot:
		return phrase(v.say("list_item.why_once", nil))
	default:
		return phrase(v.say("list_item.why_overnight", args{"When": v.DateTime(o.End.Date)}))
	}
}

// ownNames lists the room's own words.
func (v *Voice) ownNames(all []string) string {
	mine := make([]string, 0, len(all))
	for _, n := range all {
		mine = append(mine, own(n))
	}
	return v.list(mine)
}

// taken lists what was taken from and what is left of each.
func (v *Voice) taken(all []sink.Taken) string {
	var parts []string
	for _, t := range all {
		left := ""
		if t.Known {
			left = v.Volume(t.Left)
		}
		parts = append(parts, v.say("list_item.left", args{"Product": own(t.Product), "Left": left}))
	}
	return v.list(parts)
}

// Ticked says who ticked an item, and when; by may be empty.
func (v *Voice) Ticked(at time.Time, by string) Phrase {
	return phrase(v.say("evening.ticked", args{"When": v.Clock(v.local(at)), "By": own(by)}))
}

// EveningOpened says since when an evening runs; by may be empty.
func (v *Voice) EveningOpened(at time.Time, by string) Phrase {
	return phrase(v.say("evening.opened", args{"When": v.DateTime(at), "By": own(by)}))
}

// EveningClosed says when the last evening was closed; by may be empty.
func (v *Voice) EveningClosed(at time.Time, by string) Phrase {
	return phrase(v.say("evening.closed", args{"When": v.DateTime(at), "By": own(by)}))
}

// NoteBy says when a note was left; by may be empty.
func (v *Voice) NoteBy(at time.Time, by string) Phrase {
	return phrase(v.say("evening.note_by", args{"When": v.DateTime(at), "By": own(by)}))
}

// FailedTest says that a test failed; by may be empty.
func (v *Voice) FailedTest(bath string, t book.Test, at time.Time, by string) Phrase {
	return phrase(sentence(v.say("evening.failed", args{
		"Bath": own(bath), "Test": v.TestName(t), "When": v.DateTime(at), "By": own(by),
	})))
}

// OddPrint says what is odd about a print, which has a name of its own.
func (v *Voice) OddPrint(who string, k book.PrintOddKind) Phrase {
	return phrase(sentence(v.say("print_odd."+string(k), args{"Who": own(who)})))
}

// OddAbout says what is odd about a bath or about prints; subject is what it is called.
func (v *Voice) OddAbout(subject string, f book.Finding) Phrase {
	return phrase(sentence(v.say("evening.odd", args{
		"Subject": own(subject), "Odd": v.say("tell.odd."+string(f.Kind), nil), "When": v.DateTime(f.At),
	})))
}

// StillInSink says what is in the sink at the end: prints in the trays, and prints in holding or in the wash.
func (v *Voice) StillInSink(prints, batched int) (all []Phrase) {
	if prints > 0 {
		all = append(all, phrase(v.sayN("evening.still_in", prints, nil)))
	}
	if batched > 0 {
		all = append(all, phrase(v.sayN("evening.in_water", batched, nil)))
	}
	return all
}
