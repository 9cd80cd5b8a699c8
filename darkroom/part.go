package darkroom

import (
	"errors"
	"slices"
	"strings"

	"wetside/darkroom/outline"
)

// A Part is what a form, an entry of the book or a command takes up by itself: a whole section, or one item of a
// list.
type Part interface {
	Room | Bench | Shelf | Session | Vessel | Tray | Tank | Can | Product | Lot | Person | Load
}

// New is the index of an item that is to be added.
const New = -1

// ErrNoItem is returned for an index that no item of the list has.
var ErrNoItem = errors.New("no such item")

// IndexOf returns the index of the vessel, tray, tank, can, product or person of that name, or New.
func IndexOf[T Part](f File, name string) int {
	list := listOf[T](&f)
	if list == nil || name == "" {
		return New
	}
	return slices.IndexFunc(*list, func(v T) bool { return nameOf(v) == name })
}

// With returns the file with a part in its place: as item i of its list, added to it where i is New, or as the
// section. Where a product gets another name, its lots, loads and vessels follow. The file that was given is not
// changed. The rules are not looked at: see ReadForm and Check.
func With[T Part](f File, i int, v T) File {
	list := listOf[T](&f)
	if list == nil {
		*sectionOf[T](&f) = v
		return f
	}
	if i < 0 || i >= len(*list) {
		*list = append(slices.Clone(*list), v)
		return f
	}
	f = renamed(f, (*list)[i], nameOf(v))
	list = listOf[T](&f)
	*list = slices.Clone(*list)
	(*list)[i] = v
	return f
}

// Without returns the file without item i of the list of T. The file that was given is not changed.
func Without[T Part](f File, i int) File {
	list := listOf[T](&f)
	if list == nil || i < 0 || i >= len(*list) {
		return f
	}
	if *list = slices.Delete(slices.Clone(*list), i, i+1); len(*list) == 0 {
		*list = nil
	}
	return f
}

// renamed lets what names a product follow where the product gets another name.
func renamed(f File, was any, name string) File {
	p, ok := was.(Product)
	if !ok || p.Name == "" || name == "" || p.Name == name {
		return f
	}
	f.Shelf.Lots, f.Session.ToMake = slices.Clone(f.Shelf.Lots), slices.Clone(f.Session.ToMake)
	f.Bench.Vessels = slices.Clone(f.Bench.Vessels)
	follow := func(s *string) {
		if *s == p.Name {
			*s = name
		}
	}
	for i := range f.Shelf.Lots {
		follow(&f.Shelf.Lots[i].Product)
	}
	for i := range f.Session.ToMake {
		follow(&f.Session.ToMake[i].Product)
	}
	for i := range f.Bench.Vessels {
		follow(&f.Bench.Vessels[i].KeepFor)
	}
	return f
}

// nameOf returns the name of what has one.
func nameOf[T Part](v T) string {
	switch v := any(v).(type) {
	case Vessel:
		return v.Name
	case Tray:
		return v.Name
	case Tank:
		return v.Name
	case Can:
		return v.Name
	case Product:
		return v.Name
	case Person:
		return v.Name
	default:
		return ""
	}
}

// kindOf returns the kind of a part.
func kindOf[T Part]() kind[T] {
	var k any
	switch any(*new(T)).(type) {
	case Room:
		k = roomKind()
	case Bench:
		k = benchKind()
	case Shelf:
		k = shelfKind()
	case Session:
		k = sessionKind()
	case Vessel:
		k = vesselKind()
	case Tray:
		k = trayKind()
	case Tank:
		k = tankKind()
	case Can:
		k = canKind()
	case Product:
		k = productKind()
	case Lot:
		k = lotKind()
	case Person:
		k = personKind()
	case Load:
		k = loadKind()
	}
	return k.(kind[T])
}

// listOf returns the list of a file in which the Ts stand, nil where T is a section.
func listOf[T Part](f *File) *[]T {
	var list any
	switch any(*new(T)).(type) {
	case Vessel:
		list = &f.Bench.Vessels
	case Tray:
		list = &f.Bench.Trays
	case Tank:
		list = &f.Bench.Tanks
	case Can:
		list = &f.Bench.Cans
	case Product:
		list = &f.Shelf.Products
	case Lot:
		list = &f.Shelf.Lots
	case Person:
		list = &f.People
	case Load:
		list = &f.Session.ToMake
	}
	out, _ := list.(*[]T)
	return out
}

// sectionOf returns the section of a file that is a T, nil where T is an item.
func sectionOf[T Part](f *File) *T {
	var section any
	switch any(*new(T)).(type) {
	case Room:
		section = &f.Darkroom
	case Bench:
		section = &f.Bench
	case Shelf:
		section = &f.Shelf
	case Session:
		section = &f.Session
	}
	out, _ := section.(*T)
	return out
}

// keysOf returns the path of T's section or list in a file.
func keysOf[T Part]() []string {
	switch any(*new(T)).(type) {
	case Room:
		return []string{"darkroom"}
	case Bench:
		return []string{"bench"}
	case Shelf:
		return []string{"shelf"}
	case Session:
		return []string{"session"}
	case Vessel:
		return []string{"bench", "vessels"}
	case Tray:
		return []string{"bench", "trays"}
	case Tank:
		return []string{"bench", "tanks"}
	case Can:
		return []string{"bench", "cans"}
	case Product:
		return []string{"shelf", "products"}
	case Lot:
		return []string{"shelf", "lots"}
	case Person:
		return []string{"people"}
	case Load:
		return []string{"session", "to_make"}
	}
	return nil
}

// put puts a part's node in its place below root and returns its path: as an item of its list, or as the section.
// Of a section the lists of things stay as they were where the new node has none.
func put(root *node, to place, n *node) string {
	at := root
	for _, key := range to.keys {
		if at.Get(key).Kind == outline.Empty {
			at.Put(key, &node{Kind: outline.Mapping})
		}
		at = at.Get(key)
	}
	path := strings.Join(to.keys, ".")
	if !to.listed {
		for _, f := range at.Fields {
			if len(f.Value.Items) > 0 && f.Value.Items[0].Kind == outline.Mapping && n.Get(f.Key).Kind == outline.Empty {
				n.Put(f.Key, f.Value)
			}
		}
		at.Fields = n.Fields
		at.Loose = n.Loose
		return path
	}
	at.Kind = outline.List
	for len(at.Items) <= to.item {
		at.Items = append(at.Items, nil)
	}
	at.Items[to.item] = n
	return path + item(to.item)
}
