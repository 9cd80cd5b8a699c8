package fault

import "slices"

// Where is where a sign is seen, or which work a fact is about.
type Where string

// The places. Facts have Anywhere where they are about prints and film alike.
const (
	Anywhere Where = ""
	OnPrint  Where = "print"
	OnFilm   Where = "film"
	InBath   Where = "bath"
)

// Places returns where signs are seen, in the order in which they are shown.
func Places() []Where { return []Where{OnPrint, OnFilm, InBath} }

// A Sign is what is seen: a stable key, which the message files have words for.
type Sign string

// The signs on a print.
const (
	FlatBlacks      Sign = "flat_blacks"      // weak blacks, a slow image
	RushesUp        Sign = "rushes_up"        // the image comes at once and goes too dark
	NothingComes    Sign = "nothing_comes"    // no image at all
	AllBlack        Sign = "all_black"        // the whole sheet goes black
	GreyVeil        Sign = "grey_veil"        // grey all over, the borders too
	DullHighlights  Sign = "dull_highlights"  // highlights grey, borders white
	UnevenGrey      Sign = "uneven_grey"      // mottle, streaks, paler bands
	GreenBlacks     Sign = "green_blacks"     // greenish or brownish blacks
	YellowStain     Sign = "yellow_stain"     // all over, at once
	BrownPatches    Sign = "brown_patches"    // where it broke the surface
	FingerMarks     Sign = "finger_marks"     //
	WhiteSpecks     Sign = "white_specks"     // white or yellow, like grains
	WhiteHairs      Sign = "white_hairs"      // hairs and dust, the same on every print
	DarkSpecks      Sign = "dark_specks"      //
	RoundSpots      Sign = "round_spots"      // white, round, with a sharp edge
	Pinholes        Sign = "pinholes"         // or blisters
	TongMarks       Sign = "tong_marks"       //
	ChalkFilm       Sign = "chalk_film"       // white, on the dry print
	DarkensInLight  Sign = "darkens_in_light" // within days
	StainFromBack   Sign = "stain_from_back"  // of fibre paper, later
	Fades           Sign = "fades"            // after months or years
	TonerStain      Sign = "toner_stain"      // patches that come in the toner
	TestAlwaysFails Sign = "test_always_fails"
	PalesInFix      Sign = "pales_in_fix"
	EdgesLift       Sign = "edges_lift"     // of resin-coated paper
	EmulsionPeels   Sign = "emulsion_peels" // soft, frilled, scratched by a touch
)

// The signs on a film.
const (
	FilmBlank      Sign = "film_blank"       // no edge numbers either
	FilmNoPictures Sign = "film_no_pictures" // edge numbers there
	FilmThin       Sign = "film_thin"
	FilmDense      Sign = "film_dense"
	FilmFog        Sign = "film_fog"     // grey, the edges too
	FilmMilky      Sign = "film_milky"   // or purple
	FilmStreaks    Sign = "film_streaks" // from the sprocket holes, or bands
	FilmEdgeBand   Sign = "film_edge_band"
	FilmTouching   Sign = "film_touching"  // a milky patch with a sharp edge
	FilmCrescents  Sign = "film_crescents" // dark or pale half moons
	FilmScratches  Sign = "film_scratches" // along it
	FilmRoundSpots Sign = "film_round_spots"
	FilmDryMarks   Sign = "film_dry_marks"
	FilmCracked    Sign = "film_cracked" // a net of fine wrinkles
)

// The signs in a bath.
const (
	FixerCloudy    Sign = "fixer_cloudy"
	FixerSlow      Sign = "fixer_slow" // film clears slowly
	DropCloud      Sign = "drop_cloud"
	StopTurned     Sign = "stop_turned"
	SharpFumes     Sign = "sharp_fumes"
	DeveloperBrown Sign = "developer_brown"
	DeveloperMilky Sign = "developer_milky"
	ColouredPour   Sign = "coloured_pour"   // what comes out of the tank
	BottleCrystals Sign = "bottle_crystals" // in a concentrate
	SlimyWash      Sign = "slimy_wash"      // film or flakes in the washer
)

// Known reports whether the tables have the sign.
func (s Sign) Known() bool { return s.row() != nil }

// Where returns where a sign is seen; Anywhere for one that is not known.
func (s Sign) Where() Where {
	if r := s.row(); r != nil {
		return r.where
	}
	return Anywhere
}

// LightFirst reports whether light is to be ruled out before a bath is touched.
func (s Sign) LightFirst() bool {
	r := s.row()
	return r != nil && r.lightFirst
}

// Links returns the causes of a sign in the order of the list; it is not to be changed.
func (s Sign) Links() []Link {
	if r := s.row(); r != nil {
		return r.links
	}
	return nil
}

func (s Sign) row() *row {
	for _, table := range [][]row{printRows(), filmRows(), bathRows()} {
		for i := range table {
			if table[i].sign == s {
				return &table[i]
			}
		}
	}
	return nil
}

// Signs returns all signs, those on the print first, in the order in which they are shown.
func Signs() []Sign {
	var all []Sign
	for _, table := range [][]row{printRows(), filmRows(), bathRows()} {
		for i := range table {
			all = append(all, table[i].sign)
		}
	}
	return all
}

// SignsAt returns the signs of a place.
func SignsAt(w Where) []Sign {
	return slices.DeleteFunc(Signs(), func(s Sign) bool { return s.Where() != w })
}
