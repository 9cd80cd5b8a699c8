package book

import (
	"cmp"
	"errors"
	"slices"
	"strconv"

	"wetside/darkroom"
)

// lots pairs the file's lots with those on the shelf and writes what differs.
func (im *importer) lots(o ImportOptions) {
	pair, rest := im.pairLots()
	for i, w := range im.file.Shelf.Lots {
		if pair[i] < 0 {
			im.received(w)
			continue
		}
		im.changed(im.ids.Lots[pair[i]], im.has.Shelf.Lots[pair[i]], w)
	}
	for _, j := range rest {
		if o.Replace {
			im.write(&LotDiscarded{Lot: im.ids.Lots[j]})
		}
	}
}

// pairLots gives each of the file's lots the index of a lot on the shelf, or -1, the likest first; rest are those that
// nothing was paired with.
func (im *importer) pairLots() (pair, rest []int) {
	shelf := im.has.Shelf.Lots
	products := make([]string, len(shelf))
	for j, id := range im.ids.Lots {
		l, _ := im.state.Lot(id)
		products[j] = l.ProductID
		rest = append(rest, j)
	}
	for range im.file.Shelf.Lots {
		pair = append(pair, -1)
	}
	for _, same := range []func(has, wants darkroom.Lot) bool{sameLot, sameButLeft, sameOrOpened, sameButOpened, sameAtAll, sameButWhose} {
		for i, w := range im.file.Shelf.Lots {
			at := slices.IndexFunc(rest, func(j int) bool { return products[j] == im.product(w) && same(shelf[j], w) })
			if pair[i] < 0 && at >= 0 {
				pair[i] = rest[at]
				rest = slices.Delete(rest, at, at+1)
			}
		}
	}
	return pair, rest
}

// product returns the id of a lot's product, out of the file or, where the file has only the lot, the book.
func (im *importer) product(l darkroom.Lot) string {
	if id := im.names[l.Product]; id != "" {
		return id
	}
	at := slices.IndexFunc(im.has.Shelf.Products, func(p darkroom.Product) bool { return p.Name == l.Product })
	if at < 0 {
		return ""
	}
	return im.ids.Products[at]
}

// received puts a lot on the shelf that was not there.
func (im *importer) received(w darkroom.Lot) {
	product := im.product(w)
	if product == "" {
		im.err = cmp.Or(im.err, error(&Error{Kind: BadInput, Key: "import_no_product", Cause: errors.New(w.Product)}))
		return
	}
	b := NewReceived(im.author.NewID(), product, w, im.ounce)
	b.Whose = im.owner(w.Whose, "")
	im.write(b)
}

// owner returns the id of whom the file calls by a name; was is who owns it in the book, if it is there. Somebody without a name
// who is not there gets an id, which nobody else has.
func (im *importer) owner(name, was string) string {
	switch {
	case name == "":
		return ""
	case im.people.ownerName(was) == name:
		return was
	case name == darkroom.Somebody:
		return im.author.NewID()
	}
	return im.owners[name]
}

// changed writes what happened to a lot since. One that changed hands is received anew.
func (im *importer) changed(id string, has, wants darkroom.Lot) {
	if has.Whose != wants.Whose {
		was, _ := im.state.LotOwner(id)
		b := NewReceived(id, im.product(wants), wants, im.ounce)
		b.Whose = im.owner(wants.Whose, was)
		im.write(b)
	}
	if wants.Opened.Given() && wants.Opened.Text != has.Opened.Text {
		im.write(&LotOpened{Lot: id, Opened: wants.Opened.Text})
	}
	if wants.Packets != has.Packets {
		im.write(&LotCounted{Lot: id, Left: packetWords(wants.Packets)})
	}
	switch {
	case wants.LeftUnknown && !has.LeftUnknown:
		im.write(&LotCounted{Lot: id, Left: wordUnknown})
	case wants.Left.Given() && wants.Left.Text != has.Left.Text:
		im.write(&LotCounted{Lot: id, Left: wants.Left.Text, Ounce: im.ounce})
	}
}

func packetWords(n int) string {
	if n == 1 {
		return "1 packet"
	}
	return strconv.Itoa(n) + " packets"
}

func sameLot(has, wants darkroom.Lot) bool {
	return sameButLeft(has, wants) && has.Left.Text == wants.Left.Text && has.LeftUnknown == wants.LeftUnknown
}

func sameButLeft(has, wants darkroom.Lot) bool {
	return sameButOpened(has, wants) && has.Opened.Text == wants.Opened.Text
}

// sameOrOpened lets a lot pass that was opened since, or whose opening the file does not say.
func sameOrOpened(has, wants darkroom.Lot) bool {
	return sameButOpened(has, wants) && (!has.Opened.Given() || !wants.Opened.Given())
}

func sameButOpened(has, wants darkroom.Lot) bool {
	return sameAtAll(has, wants) && has.Packets == wants.Packets
}

// sameAtAll compares what seldom changes of a lot.
func sameAtAll(has, wants darkroom.Lot) bool {
	return sameButWhose(has, wants) && has.Whose == wants.Whose
}

// sameButWhose compares what never changes of a lot.
func sameButWhose(has, wants darkroom.Lot) bool {
	return has.Stock == wants.Stock && has.Holds.Text == wants.Holds.Text && (has.Packets > 0) == (wants.Packets > 0) &&
		has.Received.Text == wants.Received.Text && has.Made.Text == wants.Made.Text
}
