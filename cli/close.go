package cli

import (
	"time"

	"wetside/ahead"
	"wetside/plan"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/words/facts"
)

type closeCmd struct {
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run tells what is done at the end of the evening: each bath with what becomes of it and why, then what it stood in and the
// room. It writes nothing.
func (c *closeCmd) Run(s *session) error {
	return s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
		room, err := closingRoom(b)
		if err != nil {
			return err
		}
		items := room.Closing()
		if c.JSON {
			writeJSON(s.io.Out, facts.OfClosing(
				room.Report.At.Format(time.RFC3339), room.Sink.Evening.ID != "", items,
				func(x *sink.Item) bool {
					return x.Outlook != nil && x.Kind == sink.ItemBack && sink.Stays(x.Outlook, room.Report.At)
				},
				func(x *sink.Item) string { return b.v.ListItem(*x).Text() },
				func(x *sink.Item) string { return b.v.ClosingWhy(x).Text() },
			))
			return nil
		}
		p := newPrinter(s.io.Out)
		for i := range items {
			x := &items[i]
			box := "[ ] "
			if x.Done != nil {
				box = "[x] "
			}
			p.put(box, "    ", b.v.ListItem(*x).Text())
			if why := b.v.ClosingWhy(x); len(why) > 0 {
				p.put("    ╷ ", "      ", why.Text())
			}
		}
		return nil
	})
}

// closingRoom is the room with all that its closing list is made from.
func closingRoom(b *bench) (room sink.Room, err error) {
	now := b.s.parts.Now()
	room = sink.Room{Place: b.file.Darkroom.Place, State: b.state, Bench: b.file.Bench}
	if room.Plan, err = plan.Make(b.s.ctx, plan.Request{File: b.file, Now: now}); err != nil {
		return room, err
	}
	scene := b.scene(material.None)
	if room.Report, err = ahead.Look(scene); err != nil {
		return room, err
	}
	room.Sink = sink.Look(sink.Scene{State: b.state, Plan: room.Plan, Baths: scene, Now: now})
	return room, nil
}
