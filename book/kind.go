package book

// Kind names what an entry says. A kind's name never changes; its body's version may.
type Kind string

// The kinds of entry. For each kind stands a body; all things of the file share Set and Removed.
const (
	RoomSet         Kind = "room.set"
	BenchSet        Kind = "bench.set"
	VesselSet       Kind = "vessel.set"
	VesselRemoved   Kind = "vessel.removed"
	TraySet         Kind = "tray.set"
	TrayRemoved     Kind = "tray.removed"
	TankSet         Kind = "tank.set"
	TankRemoved     Kind = "tank.removed"
	CanSet          Kind = "can.set"
	CanRemoved      Kind = "can.removed"
	ProductSet      Kind = "product.set"
	ProductRemoved  Kind = "product.removed"
	PersonSet       Kind = "person.set"
	PersonRemoved   Kind = "person.removed"
	SessionSet      Kind = "session.set" // the session that is wanted
	Received        Kind = "lot.received"
	Opened          Kind = "lot.opened"
	Counted         Kind = "lot.counted"
	Drawn           Kind = "lot.drawn"
	Discarded       Kind = "lot.discarded"
	StockMade       Kind = "stock.made"
	BathMixed       Kind = "bath.mixed"
	BathWorked      Kind = "bath.worked" // a load went through
	BathTested      Kind = "bath.tested"
	BathToppedUp    Kind = "bath.topped_up"
	BathPouredBack  Kind = "bath.poured_back" // into a bottle
	BathPouredOut   Kind = "bath.poured_out"  // into a tray or tank again
	BathMoved       Kind = "bath.moved"       // the second of a pair became the first
	BathDiscarded   Kind = "bath.discarded"   // or collected
	WastePut        Kind = "waste.put"        // into a waste can, otherwise than by a bath's own entry
	WasteTaken      Kind = "waste.taken"      // a waste can was emptied or fetched
	DrainAnswered   Kind = "drain.answered"   // what the authority says of a drain
	BatchHeld       Kind = "batch.held"       // prints put in holding
	BatchWashed     Kind = "batch.washed"
	PrintBegan      Kind = "print.started" // a print was put into the first liquid of its way
	PrintPut        Kind = "print.moved"
	PrintOut        Kind = "print.left" // the sink: done or abandoned
	SessionOpened   Kind = "session.opened"
	SessionJoined   Kind = "session.joined"
	SessionClosed   Kind = "session.closed"
	ListTicked      Kind = "list.ticked"      // of the lists that are gone through at the start and the end
	NoteLeft        Kind = "note.left"        // for whoever comes next
	FaultNoted      Kind = "fault.found"      // something looked wrong, and what was behind it
	TemperatureRead Kind = "temperature.read" // what a probe showed
	Correction      Kind = "correction"
)

// Kinds are all that this program knows.
func Kinds() []Kind {
	return []Kind{
		RoomSet, BenchSet, VesselSet, VesselRemoved, TraySet, TrayRemoved, TankSet, TankRemoved, CanSet, CanRemoved, ProductSet,
		ProductRemoved, PersonSet, PersonRemoved, SessionSet, Received, Opened, Counted, Drawn, Discarded, StockMade, BathMixed,
		BathWorked, BathTested, BathToppedUp, BathPouredBack, BathPouredOut, BathMoved, BathDiscarded, WastePut, WasteTaken,
		DrainAnswered, BatchHeld, BatchWashed, PrintBegan, PrintPut, PrintOut, SessionOpened, SessionJoined, SessionClosed, ListTicked,
		NoteLeft, FaultNoted, TemperatureRead, Correction,
	}
}

// Known reports whether this program knows the kind.
func (k Kind) Known() bool { return k.blank() != nil }

// Decides reports whether entries of the kind are decisions, which carry the position they were made on. All
// others are facts, which are never refused for what else happened.
func (k Kind) Decides() bool {
	switch k {
	case Received, Opened, Counted, Drawn, StockMade, BathMixed, BathWorked, BathTested, BathToppedUp, BathPouredBack,
		BathPouredOut, WastePut, WasteTaken, DrainAnswered, BatchHeld, BatchWashed, PrintBegan, PrintPut, PrintOut, SessionOpened, SessionJoined, ListTicked, NoteLeft, FaultNoted, TemperatureRead:
		return false
	case RoomSet, BenchSet, SessionSet, VesselSet, VesselRemoved, TraySet, TrayRemoved, TankSet, TankRemoved, CanSet, CanRemoved,
		ProductSet, ProductRemoved, PersonSet, PersonRemoved, Discarded, BathMoved, BathDiscarded, SessionClosed, Correction:
		return true
	default:
		return false
	}
}

// A Part is a part of the darkroom file that entries set as a whole.
type Part string

// The parts. Room, Bench (what of the bench is no thing: fill depth, what can dry) and Session are one of each in
// a darkroom; of the others there are many, each with an id.
const (
	RoomPart    Part = "room"
	BenchPart   Part = "bench"
	SessionPart Part = "session"
	VesselPart  Part = "vessel"
	TrayPart    Part = "tray"
	TankPart    Part = "tank"
	CanPart     Part = "can"
	ProductPart Part = "product"
	PersonPart  Part = "person"
)

// single reports whether there is one such part in a darkroom.
func (p Part) single() bool { return p == RoomPart || p == BenchPart || p == SessionPart }

// blank returns an empty body of the kind to read into, nil for an unknown kind.
func (k Kind) blank() Body {
	switch k {
	case RoomSet, BenchSet, SessionSet, VesselSet, TraySet, TankSet, CanSet, ProductSet, PersonSet:
		return &Set{Part: Part(k[:len(k)-len(".set")])}
	case VesselRemoved, TrayRemoved, TankRemoved, CanRemoved, ProductRemoved, PersonRemoved:
		return &Removed{Part: Part(k[:len(k)-len(".removed")])}
	case Received:
		return &LotReceived{}
	case Opened:
		return &LotOpened{}
	case Counted:
		return &LotCounted{}
	case Drawn:
		return &LotDrawn{}
	case Discarded:
		return &LotDiscarded{}
	case StockMade:
		return &Stock{}
	case BathMixed:
		return &Mixed{}
	case Correction:
		return &Corrected{}
	default:
		return k.blankOfBaths()
	}
}

// blankOfBaths is blank for what happens to baths and batches.
func (k Kind) blankOfBaths() Body {
	switch k {
	case BathWorked:
		return &Worked{}
	case BathTested:
		return &Tested{}
	case BathToppedUp:
		return &ToppedUp{}
	case BathPouredBack:
		return &PouredBack{}
	case BathPouredOut:
		return &PouredOut{}
	case BathMoved:
		return &Moved{}
	case BathDiscarded:
		return &Disposed{}
	case WastePut:
		return &WasteIn{}
	case WasteTaken:
		return &TakenAway{}
	case DrainAnswered:
		return &Answered{}
	case BatchHeld:
		return &Held{}
	case BatchWashed:
		return &Washed{}
	case FaultNoted:
		return &FaultFound{}
	case TemperatureRead:
		return &ProbeRead{}
	default:
		return k.blankOfSink()
	}
}

// blankOfSink is blank for what happens at the sink in an evening.
func (k Kind) blankOfSink() Body {
	switch k {
	case PrintBegan:
		return &PrintStarted{}
	case PrintPut:
		return &PrintMoved{}
	case PrintOut:
		return &PrintLeft{}
	case SessionOpened:
		return &EveningOpened{}
	case SessionJoined:
		return &EveningJoined{}
	case SessionClosed:
		return &EveningClosed{}
	case ListTicked:
		return &Ticked{}
	case NoteLeft:
		return &Told{}
	default:
		return nil
	}
}
