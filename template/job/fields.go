package job

import (
	"slices"
	"strings"

	"rodsheet/geom"
	"rodsheet/template/paper"
)

// Limits of a job, generous for a whole building.
const (
	MaxPanels = 5000
	MaxPoints = 10_000 // of one outline

	maxWalls  = 2000
	maxOnWall = 2000 // studs, rails, fittings, openings, keep-outs, runs and readings of one wall
	maxHoles  = 32   // of one clip half
	maxWidth  = 100 * geom.Metre
	maxHeight = 30 * geom.Metre
	maxStock  = 20 * geom.Metre // side of a sheet, width of a roll
	maxPast   = 24 * geom.Inch  // of a run past an outside corner
)

// The words of choices that several places know.
var (
	fittingWords = []string{"electrical", "pipe", "vent", "heater", "valve", "other"}
	heaterWords  = []string{"baseboard", "radiator", "stove", "portable"}
	openingWords = []string{"window", "door", "opening"}
)

// table describes every field of the job file, once: the reader, the starter job, the schema and the documentation
// come from it.
var table = slices.Concat(
	[]Field{
		{Path: "rodsheet", Topic: TopicJob, Kind: KindChoice, Words: []string{"1"}, Required: true, Starter: true, Example: same("1"),
			How: "the version of this format; write `rodsheet: 1` in the first line"},
		{Path: "name", Kind: KindText, most: 80, Required: true, Starter: true, Example: same("Window seat"),
			How: "what you call the job; it stands on every sheet"},
		{Path: "units", Kind: KindChoice, Words: []string{"in", "mm"}, Required: true, Starter: true, Example: Each{"in", "mm"},
			How: "write in or mm; bare numbers count in it, and no length is judged without it"},

		{Path: "paper", Topic: TopicPaper, Kind: KindGroup, How: "what the sheets are printed on"},
		{Path: "paper.size", Kind: KindSize, Words: paper.Names(), Starter: true,
			Default: Each{"letter", "a4"}, limits: between(100*geom.Millimetre, 5*geom.Metre),
			How: strings.Join(paper.Names(), ", ") + ", or width x height"},
		{Path: "paper.margin", Kind: KindLength, limits: from0(4 * geom.Inch), Default: Each{"1/4", "6"},
			How: "strip at the edge that the printer cannot reach"},
		{Path: "paper.overlap", Kind: KindLength, limits: from0(4 * geom.Inch), Default: Each{"1/2", "12"},
			How: "how far neighbouring pages lie over each other"},

		{Path: "board", Topic: TopicBoard, Kind: KindGroup, Required: true,
			How: "the stiff back of a panel; write its thickness as measured"},
		{Path: "board.thickness", Kind: KindLength, limits: over0(4 * geom.Inch), Required: true, Starter: true, Example: Each{"15/32", "11.9"},
			How: "measure a sheet with a calliper near an edge; the name on the sheet is usually more than it has"},
		{Path: "board.tolerance", Kind: KindLength, limits: from0(geom.Inch), Default: Each{"1/64", "0.4"},
			How: "how much thinner a board may turn out"},
		{Path: "board.sheet", Kind: KindSize, limits: between(geom.Inch, maxStock), Starter: true, Example: Each{"48 x 96", "1250 x 2500"},
			Without: "no cutting plan", How: "size of the sheets you buy, width x height, for the cutting plan"},
		{Path: "board.kerf", Kind: KindLength, limits: from0(geom.Inch / 2), Default: Each{"1/8", "3"},
			How: "width of wood that the saw turns to dust; measure a cut"},
		{Path: "board.saw", Kind: KindLength, limits: over0(geom.Inch), Default: Each{"1/16", "1"},
			How: "boards are cut to whole steps of this; the rest goes into the gaps"},
		{Path: "board.grain", Kind: KindChoice, Words: []string{"free", "along"}, Default: same("free"),
			How: "free: parts may be turned on the sheet; along: they stay upright"},
		{Path: "board.density", Kind: KindDensity, most: 3000, Starter: true, Example: Each{"36 lb/ft3", "580 kg/m3"},
			Without: "a usual one, and told", How: "weigh a sheet and divide by its volume, or take the maker's figure"},
		{Path: "board.price", Kind: KindPrice, Example: same("42.00"), Without: "no cost",
			How: "of a sheet; prices are optional everywhere, in your own money"},

		{Path: "foam", Kind: KindGroup, Without: "no foam", How: "what lies on the face of the board; leave it out when there is none"},
		{Path: "foam.thickness", Kind: KindLength, limits: over0(12 * geom.Inch), Required: true, Starter: true, Example: Each{"1", "25"},
			How: "measure it unpressed with a rule; take the whole `foam` out when there is none"},
		{Path: "foam.sheet", Kind: KindSize, limits: between(geom.Inch, maxStock), Starter: true, Example: Each{"24 x 72", "1000 x 2000"},
			Without: "no cutting plan", How: "size of the sheets you buy, width x height"},
		{Path: "foam.density", Kind: KindDensity, most: 500, Starter: true, Example: Each{"1.8 lb/ft3", "30 kg/m3"},
			Without: "a usual one, and told", How: "the maker's figure"},
		{Path: "foam.price", Kind: KindPrice, Example: same("28"), Without: "no cost", How: "of a sheet"},

		{Path: "batting", Kind: KindGroup, Without: "no batting", How: "what lies over foam and edges under the cover; leave it out when there is none"},
		{Path: "batting.thickness", Kind: KindLength, limits: over0(4 * geom.Inch), Required: true, Starter: true, Example: Each{"1/2", "12"},
			How: "measure it lying loose with a rule; take the whole `batting` out when there is none"},
		{Path: "batting.pressed", Kind: KindLength, limits: from0(4 * geom.Inch), Default: Each{"1/16", "2"},
			How: "fold it tight round an edge and measure what is left"},
		{Path: "batting.roll", Kind: KindLength, limits: between(geom.Inch, maxStock), Starter: true, Example: Each{"48", "1500"},
			Without: "no cutting plan", How: "usable width of the roll"},
		{Path: "batting.density", Kind: KindDensity, most: 500, Example: Each{"0.6 lb/ft3", "10 kg/m3"},
			Without: "a usual one, and told", How: "the maker's figure, lying loose"},
		{Path: "batting.price", Kind: KindPrice, Example: same("6"), Without: "no cost", How: "of a yard (inch jobs) or a metre of the roll"},

		{Path: "cover", Kind: KindGroup, Without: "no cover", How: "the stretched cloth or hide"},
		{Path: "cover.thickness", Kind: KindLength, limits: from0(geom.Inch / 2), Required: true, Starter: true, Example: Each{"1/32", "1"},
			How: "fold the cloth to eight layers, measure them lightly pressed and divide by eight"},
		{Path: "cover.roll", Kind: KindLength, limits: between(geom.Inch, maxStock), Starter: true, Example: Each{"54", "1400"},
			Without: "no cutting plan", How: "usable width of the roll"},
		{Path: "cover.nap", Kind: KindChoice, Words: []string{"up", "any"}, Default: same("up"),
			How: "up: all pieces the same way up; any: they may lie any way, sideways too"},
		{Path: "cover.repeat", Kind: KindLength, limits: from0(3 * geom.Metre), Default: same("0"),
			How: "from one repeat of the pattern to the next, along the roll; 0 for a plain cover"},
		{Path: "cover.weight", Kind: KindCloth, Example: Each{"12 oz/yd2", "400 g/m2"}, Without: "a usual one, and told",
			How: "the maker's figure, or weigh a piece and divide by its area"},
		{Path: "cover.price", Kind: KindPrice, Example: same("24"), Without: "no cost", How: "of a yard (inch jobs) or a metre of the roll"},

		{Path: "wrap", Kind: KindGroup, Short: "size", How: "what the cover has over the board on each side"},
		{Path: "wrap.size", Kind: KindLength, Words: []string{"auto"}, limits: over0(24 * geom.Inch), Default: same("auto"),
			How: "auto: board, foam and hold, rounded up to 1/2 in or 10 mm; or a length"},
		{Path: "wrap.hold", Kind: KindLength, limits: from0(12 * geom.Inch), Default: Each{"1", "25"}, How: "what lies on the back of the board"},
		{Path: "wrap.fold", Kind: KindChoice, Words: []string{"auto", "pleat", "parcel"}, Default: same("auto"),
			How: "corners: auto, pleat (thick panels) or parcel (thin ones)"},
		{Path: "staples", Kind: KindGroup, How: "what holds the cover on the back"},
		{Path: "staples.length", Kind: KindLength, limits: between(geom.Millimetre, 2*geom.Inch), Example: Each{"3/8", "10"},
			Without: "not judged", How: "of the leg"},
		{Path: "staples.spacing", Kind: KindLength, limits: between(5*geom.Millimetre, 12*geom.Inch), Default: Each{"1 1/2", "40"},
			How: "from staple to staple"},
		{Path: "staples.edge", Kind: KindLength, limits: from0(6 * geom.Inch), Default: Each{"3/4", "20"}, How: "from the board's edge to the row of staples"},
		{Path: "staples.crown", Kind: KindLength, limits: from0(geom.Inch / 4), Default: Each{"1/32", "1"}, How: "how far a staple's back stands off the board"},

		{Path: "clip", Topic: TopicClip, Kind: KindGroup, Required: true,
			How: "the pair that holds a panel on the wall; measure one pair: kind, base, flange and standoff"},
		{Path: "clip.kind", Kind: KindChoice, Words: []string{"press", "lift"}, Required: true, Starter: true, Example: same("press"),
			How: "write press when the panel goes straight on, lift when it hooks over and comes down"},
		{Path: "clip.base", Kind: KindSize, limits: over0(12 * geom.Inch), Starter: true, Example: Each{"1 1/2 x 1 1/2", "38 x 38"},
			How: "measure the outline of one half of the clip, width x height as it hangs"},
		{Path: "clip.holes", Kind: KindPoints, limits: eitherWay(12 * geom.Inch), most: maxHoles, Starter: true, Default: same("[[0, 0]]"),
			How: "measure each screw hole from the middle of the base, [right, up], seen from the front"},
		{Path: "clip.flange", Kind: KindLength, limits: over0(geom.Inch), Starter: true, Example: Each{"3/32", "2.5"},
			How: "measure the thickness of the clip under the screw head with a calliper"},
		{Path: "clip.standoff", Kind: KindLength, limits: from0(4 * geom.Inch), Required: true, Starter: true, Example: Each{"5/16", "8"},
			How: "hook a pair together and measure from the wall side of one to the board side of the other"},
		{Path: "clip.lift", Kind: KindLength, limits: from0(6 * geom.Inch), Example: Each{"1/2", "12"}, Without: "0; needed for kind: lift",
			How: "measure how far the panel must rise before the hooks let go; room is kept above it"},
		{Path: "clip.offset", Kind: KindPoint, limits: eitherWay(6 * geom.Inch), Default: same("[0, 0]"),
			How: "from the middle of the wall half to that of the board half, hooked together, [right, up]"},
		{Path: "clip.play", Kind: KindLength, limits: from0(geom.Inch), Default: Each{"1/16", "1.5"}, How: "how far the halves may miss each other"},
		{Path: "clip.carries", Kind: KindWeight, Example: Each{"10 lb", "4.5 kg"}, Without: "loads are shown and not judged",
			How: "what one pair carries, from the maker's sheet"},
		{Path: "clip.price", Kind: KindPrice, Example: same("1.50"), Without: "no cost", How: "of a pair"},
	},
	halfFields("clip.board half", "the half on the board, where the halves differ", Each{"1 1/2 x 2", "38 x 50"}),
	halfFields("clip.wall half", "the half on the wall, where the halves differ", Each{"1 1/2 x 1 1/2", "38 x 38"}),
	[]Field{
		{Path: "clips", Kind: KindGroup, How: "how many, and where"},
		{Path: "clips.number", Kind: KindCount, least: 2, most: 100, Default: same("4"), How: "at least, for each panel"},
		{Path: "clips.clear", Kind: KindLength, limits: from0(24 * geom.Inch), Default: Each{"2", "50"}, How: "board edge to clip base: room for the staples"},
		{Path: "clips.spacing", Kind: KindLength, limits: between(geom.Inch, 10*geom.Metre), Default: Each{"24", "600"},
			How: "at most, between clips of one row and between rows"},
		{Path: "clips.step", Kind: KindLength, limits: over0(6 * geom.Inch), Default: Each{"1/16", "1"}, How: "clips stand on whole steps of this"},
		{Path: "clips.follow", Kind: KindChoice, Words: []string{"same", "studs"}, Starter: true, Default: same("same"),
			How: "same: one pattern for a run where possible; studs: each panel seeks wood for its clips"},

		{Path: "screws", Kind: KindGroup, How: "what you mean to use, and what you can get"},
		{Path: "screws.board", Kind: KindGroup, How: "for the board halves"},
		{Path: "screws.board.size", Kind: KindScrew, Required: true, Starter: true, Example: Each{"8", "4 mm"},
			How: "write the gauge number, as in 8, or the diameter with its unit, as in 4 mm"},
		{Path: "screws.board.length", Kind: KindLength, limits: over0(12 * geom.Inch), Starter: true, Example: Each{"1/2", "12"},
			Without: "not judged", How: "under the head to the tip; it must not come through the board"},
		{Path: "screws.wall", Kind: KindGroup, How: "for the wall halves"},
		{Path: "screws.wall.size", Kind: KindScrew, Required: true, Starter: true, Example: Each{"8", "4 mm"},
			How: "write the gauge number, as in 8, or the diameter with its unit, as in 4 mm"},
		{Path: "screws.wall.length", Kind: KindLength, limits: over0(12 * geom.Inch), Starter: true, Example: Each{"1 5/8", "40"},
			Without: "not judged", How: "under the head to the tip"},
		{Path: "screws.marker", Kind: KindLength, limits: over0(geom.Inch / 2), Default: Each{"1/8", "3"}, How: "bit for the hole through board and lining"},
		{Path: "screws.on hand", Kind: KindLengths, limits: over0(12 * geom.Inch), most: 100, Starter: true,
			Example: Each{"[1/2, 5/8, 3/4, 1, 1 1/4, 1 5/8, 2]", "[10, 12, 16, 20, 25, 30, 40, 50]"}, Without: "any length", How: "lengths you can get"},
		{Path: "screws.price", Kind: KindPrice, Example: same("7"), Without: "no cost", How: "of a hundred"},

		{Path: "fixings", Kind: KindGroup, How: "what holds wall halves where there is no wood"},
		{Path: "fixings.plug", Kind: KindGroup, Without: "none; walls of masonry need it", How: "plugs for masonry"},
		{Path: "fixings.plug.hole", Kind: KindLength, limits: over0(geom.Inch), Required: true, Example: Each{"1/4", "8"},
			How: "diameter of the bit that the plug is made for; it is on the packet"},
		{Path: "fixings.plug.length", Kind: KindLength, limits: over0(12 * geom.Inch), Required: true, Example: Each{"1 1/2", "40"},
			How: "measure a plug from end to end"},
	},
	fixingFields("fixings.plug", Each{"25 lb", "12 kg"}),
	[]Field{
		{Path: "fixings.anchor", Kind: KindGroup, Without: "a fixing made for the lining, and its hole by its maker",
			How: "what holds in the lining alone"},
		{Path: "fixings.anchor.hole", Kind: KindLength, limits: over0(2 * geom.Inch), Required: true, Example: Each{"1/2", "10"},
			How: "diameter of the hole that its maker asks for; it is on the packet"},
		{Path: "fixings.anchor.reach", Kind: KindLength, limits: over0(6 * geom.Inch), Example: Each{"3/4", "16"}, Without: "not judged",
			How: "thickest lining that it takes; it is on the packet"},
	},
	fixingFields("fixings.anchor", Each{"15 lb", "7 kg"}),
	[]Field{

		{Path: "shims", Topic: TopicBlocks, Kind: KindGroup, How: "pads behind the wall halves where the lining gives"},
		{Path: "shims.stock", Kind: KindLength, limits: over0(geom.Inch), Default: Each{"1/8", "3"}, How: "measure the thickness of what you cut pads from"},
		{Path: "shims.size", Kind: KindSize, limits: over0(12 * geom.Inch), Example: Each{"2 x 2", "50 x 50"}, Without: "a little larger than the clip",
			How: "of a pad, width x height"},
		{Path: "hardboard", Kind: KindGroup, How: "what pads are cut from"},
		{Path: "hardboard.sheet", Kind: KindSize, limits: between(geom.Inch, maxStock), Example: Each{"24 x 48", "610 x 1220"}, Without: "a piece as large as the pads take",
			How: "size of the sheets or offcuts you have, width x height"},
		{Path: "blocks", Kind: KindGroup, How: "height blocks that boards stand on while they are marked or hung"},
		{Path: "blocks.stock", Kind: KindLengths, limits: over0(12 * geom.Inch), most: 100, Starter: true,
			Example: Each{"[1 1/2, 3/4, 15/32, 1/4, 1/8]", "[44, 18, 11.9, 6, 3]"}, Without: "no stacks",
			How: "measure the thickness of each stock you have with a calliper"},
		{Path: "blocks.within", Kind: KindLength, limits: from0(geom.Inch), Default: Each{"1/64", "0.4"}, How: "how near a stack must come"},
		{Path: "blocks.foot", Kind: KindLength, limits: between(geom.Inch/2, 24*geom.Inch), Default: Each{"4", "100"}, How: "length of a block along the deck"},
		{Path: "blocks.for", Kind: KindChoice, Words: []string{"drilling", "hanging", "both"}, Default: same("drilling"),
			How: "drilling (bare boards), hanging (finished panels) or both"},
		{Path: "blocks.count", Kind: KindCount, least: 1, most: 1000, Example: same("2"), Without: "two for each panel that is set at a time",
			How: "how many of each block"},

		{Path: "level line", Topic: TopicRuns, Kind: KindLength, limits: over0(maxHeight), Example: Each{"40", "1000"}, Without: "heights read from the floor alone",
			How: "mark one round the room where a tape reaches it; its height above the floor at the first wall's left end"},
		{Path: "heights", Topic: TopicRuns, Kind: KindNamed, OneOf: bandWays, Example: same("seat back"),
			How: "bands that runs share, by name; heights are from the floor at the left end of the first wall"},
	},
	bandFields("heights.*", true),
	[]Field{
		{Path: "walls", Topic: TopicWall, Kind: KindList, Required: true, most: maxWalls,
			How:   "list them from left to right as you stand in the room, each with name, width, height and runs",
			OneOf: []OneOf{{Ways: []Way{{Needs: []string{"height"}}, {Needs: []string{"outline"}}}, Why: "the outline has the height; keep one"}}},
		{Path: "walls[].name", Kind: KindText, most: 40, Required: true, Starter: true, Example: same("North"),
			How: "panels and sheets are found by it"},
		{Path: "walls[].width", Kind: KindLength, limits: between(geom.Inch, maxWidth), Required: true, Starter: true, Example: Each{"96", "2440"},
			How: "measure from corner to corner at the height of the panels and at two more; write the least"},
		{Path: "walls[].height", Kind: KindLength, limits: between(geom.Inch, maxHeight), Starter: true, Example: Each{"90", "2290"},
			How: "measure from the floor to the ceiling; where the top slopes give `outline` instead"},
		{Path: "walls[].outline", Kind: KindPoints, limits: eitherWay(maxWidth), most: MaxPoints,
			Example: Each{"[[0, 0], [96, 0], [96, 60], [40, 90], [0, 90]]", "[[0, 0], [2440, 0], [2440, 1520], [1000, 2290], [0, 2290]]"},
			How:     "corners in order round the wall, [from its left end, up from the floor], instead of height"},
		{Path: "walls[].build", Topic: TopicOnWall, Kind: KindChoice, Words: []string{"framed", "masonry"}, Default: same("framed"),
			How: "framed: studs behind a lining; masonry: brick, block, stone or concrete, bare or plastered"},
		{Path: "walls[].lining", Kind: KindGroup, Without: "not known, and told", How: "what covers the studs or the masonry"},
		{Path: "walls[].lining.thickness", Kind: KindLength, limits: from0(4 * geom.Inch), Required: true, Starter: true, Example: Each{"1/2", "12.5"},
			How: "measure it at the edge of a socket's box or a small hole; write 0 for bare framing or masonry"},
		{Path: "walls[].lining.gives", Kind: KindTruth, Default: same("false"), How: "true when it yields under the thumb between the studs"},
		{Path: "walls[].depth", Kind: KindLength, limits: over0(2 * geom.Metre), Starter: true, Example: Each{"4 1/2", "120"},
			Without: "not known", How: "the whole wall, face to far face; measure it in a doorway"},
	},
	memberFields("walls[].studs", "upright wood behind the lining", "from the left end of the wall", true),
	memberFields("walls[].rails", "level wood behind the lining", "from the floor", false),
	[]Field{
		{Path: "walls[].fittings", Kind: KindList, most: maxOnWall, How: "what is on the wall: sockets, pipes, vents, heaters, valves"},
		{Path: "walls[].fittings[].name", Kind: KindText, most: 40, Starter: true, Example: same("socket"), Without: "its kind", How: "what you call it"},
		{Path: "walls[].fittings[].kind", Kind: KindChoice, Words: fittingWords, Required: true, Starter: true, Example: same("electrical"),
			How: "write electrical, pipe, vent, heater, valve or other; it decides how far panels stay away"},
		{Path: "walls[].fittings[].heater", Kind: KindChoice, Words: heaterWords, Example: same("baseboard"), Without: "any heater",
			How: "of a heater, which: baseboard, radiator, stove (solid fuel) or portable"},
		{Path: "walls[].fittings[].clearance", Kind: KindLength, limits: over0(3 * geom.Metre), Example: Each{"10", "250"}, Without: "a usual one, and told",
			How: "of a heater, what its plate asks for to things that burn"},
		{Path: "walls[].fittings[].side", Kind: KindChoice, Words: []string{"this", "far"}, Default: same("this"),
			How: "far: an electrical fitting of the wall's other side, whose cable zones count here; placed as seen here"},
	},
	placeFields("walls[].fittings[]", true, Each{"[52, 8]", "[1320, 200]"}, Each{"3 x 4 1/2", "86 x 86"}),
	[]Field{
		{Path: "walls[].openings", Kind: KindList, most: maxOnWall, How: "windows, doors and other openings"},
		{Path: "walls[].openings[].name", Kind: KindText, most: 40, Example: same("window"), Without: "opening", How: "what you call it"},
		{Path: "walls[].openings[].kind", Kind: KindChoice, Words: openingWords, Example: same("window"), Without: "what its name says",
			How: "window, door or opening"},
		{Path: "walls[].openings[].swing", Kind: KindLength, limits: from0(3 * geom.Metre), Default: same("0"),
			How: "of a door whose leaf opens against the wall: what it covers beside the door"},
	},
	placeFields("walls[].openings[]", false, Each{"[20, 50]", "[500, 1270]"}, Each{"40 x 36", "1000 x 900"}),
	[]Field{
		{Path: "walls[].keep-outs", Kind: KindList, most: maxOnWall, How: "where no hole may go: pipes and cables in the wall"},
		{Path: "walls[].keep-outs[].name", Kind: KindText, most: 40, Example: same("old pipe"), Without: "keep-out", How: "what you call it"},
	},
	placeFields("walls[].keep-outs[]", false, Each{"[70, 0]", "[1780, 0]"}, Each{"2 x 90", "50 x 2290"}),
	[]Field{
		{Path: "walls[].corner", Topic: TopicWall, Kind: KindChoice, Words: []string{"inside", "outside", "none"}, Default: same("none"),
			How: "how the next wall joins: inside, outside or none"},
		{Path: "walls[].through", Kind: KindChoice, Words: []string{"this", "next"}, Default: same("this"), How: "whose run goes into the corner: this or next"},
		{Path: "walls[].runs", Topic: TopicRuns, Kind: KindList, most: maxOnWall, How: "rows of panels on the wall",
			OneOf: []OneOf{
				{Ways: []Way{{Needs: []string{"across", "height"}}, {Needs: []string{"area"}, Takes: []string{"seat"}}},
					Why: "a run is a row between two ends at a height, or an area; keep one"},
				{Ways: []Way{{Needs: []string{"panels"}}, {Needs: []string{"widths"}}}, Why: "equal panels or given widths; keep one"},
			}},
		{Path: "walls[].runs[].name", Kind: KindText, most: 20, Required: true, Starter: true, Example: same("N"),
			How: "panels are named by it, N1, N2, … from the left"},
		{Path: "walls[].runs[].across", Kind: KindReadings, limits: eitherWay(maxWidth), most: maxOnWall, Starter: true, Example: Each{"[2, 94]", "[50, 2390]"},
			How: "measure from the left end of the wall to where the run begins and ends; or give an `area`"},
		{Path: "walls[].runs[].across[].at", Kind: KindLength, limits: from0(maxHeight), Example: Each{"22", "560"}, Without: "not said",
			How: "height of this reading; of several the narrowest counts"},
		{Path: "walls[].runs[].across[].from", Kind: KindLength, limits: eitherWay(maxWidth), Required: true, Example: Each{"2", "50"},
			How: "measure where the run begins at this height"},
		{Path: "walls[].runs[].across[].to", Kind: KindLength, limits: eitherWay(maxWidth), Required: true, Example: Each{"94", "2390"},
			How: "measure where the run ends at this height"},
		{Path: "walls[].runs[].height", Kind: KindGroup, Of: "heights", OneOf: bandWays, Starter: true, Example: same("seat back"),
			How: "name a band of `heights`, or write its fields here"},
	},
	bandFields("walls[].runs[].height", false),
	[]Field{
		{Path: "walls[].runs[].area", Kind: KindPoints, limits: eitherWay(maxWidth), most: MaxPoints,
			Example: Each{"[[0, 48], [40, 48], [40, 84], [0, 60]]", "[[0, 1220], [1000, 1220], [1000, 2130], [0, 1520]]"},
			How:     "corners in order round the panels, [from the left end of the wall, up], instead of across and height"},
		{Path: "walls[].runs[].seat", Kind: KindEnds, limits: from0(maxHeight), Example: Each{"17 1/2", "445"}, Without: "no blocks",
			How: "of an area: measure from the floor to the hard deck below it; or at both ends, [left, right]"},
		{Path: "walls[].runs[].panels", Kind: KindCount, least: 1, most: MaxPanels, Starter: true, Example: same("4"),
			How: "say how many equal panels, or give their `widths`"},
		{Path: "walls[].runs[].widths", Kind: KindLengths, limits: over0(maxWidth), most: MaxPanels, Example: Each{"[18, 24, 18]", "[450, 600, 450]"},
			How: "finished widths from the left, instead of panels"},
		{Path: "walls[].runs[].gap", Kind: KindLength, limits: from0(12 * geom.Inch), Starter: true, Default: same("0"), Example: Each{"1/4", "6"},
			How: "between finished panels"},
		{Path: "walls[].runs[].ends", Kind: KindLength, limits: from0(maxWidth), Default: same("0"),
			How: "between the ends of the run and the first and last panel"},
		{Path: "walls[].runs[].template", Kind: KindChoice, Words: []string{"auto", "corners", "whole"}, Default: same("auto"),
			How: "auto, corners (jigs that fold over the edges) or whole"},

		{Path: "framing", Topic: TopicAssumed, Kind: KindGroup, Without: "how hard a screw holds is not worked out", How: "the wood of studs and rails"},
		{Path: "framing.wood", Kind: KindText, most: 60, Example: same("spruce"), Without: "not said", How: "what it is"},
		{Path: "framing.gravity", Kind: KindNumber, Example: same("0.42"), Without: "screws are not judged by it",
			How: "its specific gravity, from a table of woods"},
		{Path: "accuracy", Kind: KindGroup, How: "what the tolerance budget reckons with"},
		{Path: "accuracy.tape", Kind: KindChoice, Words: []string{"1", "2", "3", "I", "II", "III", "inch"}, Default: Each{"inch", "2"},
			How: "accuracy class printed on your tape, or inch for one in inches, which has none"},
		{Path: "accuracy.reading", Kind: KindLength, limits: from0(geom.Inch / 4), Default: Each{"1/64", "0.5"}, How: "how far you may misread it"},
		{Path: "accuracy.seam", Kind: KindLength, limits: from0(geom.Inch / 4), Default: same("0.3 mm"), How: "how far a taped seam may be off"},
		{Path: "accuracy.wander", Kind: KindLength, limits: from0(geom.Inch / 4), Default: same("0.5 mm"), How: "how far a drill may wander"},
		{Path: "accuracy.growth", Kind: KindShares, Default: same("[0.15 %, 0.3 %]"),
			How: "of paper in damp air, along and across its grain; bond grows 0.1 to 0.2 % and 0.2 to 0.4 %; at most 3 %"},
		{Path: "accuracy.squared", Kind: KindLength, limits: from0(geom.Inch), Example: Each{"1/32", "0.5"}, Without: "half of board.saw",
			How: "how far the edge of a cut board may be off"},
		{Path: "slivers", Kind: KindGroup, How: "panels too small to make"},
		{Path: "slivers.width", Kind: KindLength, limits: from0(geom.Metre), Default: Each{"3", "75"}, How: "finished panels narrower or lower than this"},
		{Path: "slivers.area", Kind: KindSize, limits: over0(geom.Metre), Example: Each{"6 x 9", "150 x 225"}, Without: "not judged",
			How: "width x height of a rectangle: panels that cover less"},
		{Path: "slivers.merge", Kind: KindTruth, Default: same("false"), How: "true: merged with a neighbour; false: told"},
		{Path: "buying", Kind: KindGroup, How: "what the list adds"},
		{Path: "buying.spares", Kind: KindCount, most: 10_000, Default: same("2"), How: "spare clip pairs"},
		{Path: "buying.pack", Kind: KindCount, least: 1, most: 100_000, Default: same("100"), How: "screws come in packs of this many"},
		{Path: "cables", Kind: KindChoice, Words: []string{"any", "straight"}, Default: same("any"),
			How: "straight: those under 50 mm deep run up, down and sideways from electrical fittings, where no hole goes"},
		{Path: "accept", Kind: KindList, How: "findings you have dealt with"},
		{Path: "accept[].finding", Kind: KindText, most: 80, Required: true, Example: same("screw-through"),
			How: "write the finding's id as `rodsheet check` prints it"},
		{Path: "accept[].at", Kind: KindText, most: 80, Example: same("N3"), Without: "wherever it is found", How: "the panel, board or wall it is about"},
		{Path: "accept[].because", Kind: KindText, most: 300, Required: true, Example: same("tips ground flush"),
			How: "say why it is all right here; the reason is printed on the overview"},
	},
)

// fixingFields are those that every kind of fixing has.
func fixingFields(path string, carries Each) []Field {
	return []Field{
		{Path: path + ".carries", Kind: KindWeight, Example: carries, Without: "loads are shown and not judged",
			How: "what one carries for good, from the maker's sheet for your wall"},
		{Path: path + ".price", Kind: KindPrice, Example: same("0.20"), Without: "no cost", How: "of one"},
	}
}

func halfFields(path, how string, base Each) []Field {
	return []Field{
		{Path: path, Kind: KindGroup, Without: "as the other half", How: how},
		{Path: path + ".base", Kind: KindSize, limits: over0(12 * geom.Inch), Example: base, Without: "clip.base",
			How: "measure the outline of this half, width x height"},
		{Path: path + ".holes", Kind: KindPoints, limits: eitherWay(12 * geom.Inch), most: maxHoles, Example: same("[[0, 0]]"), Without: "clip.holes",
			How: "measure each screw hole from the middle of the base, [right, up], seen from the front"},
		{Path: path + ".flange", Kind: KindLength, limits: over0(geom.Inch), Example: Each{"3/32", "2.5"}, Without: "clip.flange",
			How: "measure the thickness of this half under the screw head"},
	}
}

// bandWays are the two ways to say where a band is.
var bandWays = []OneOf{{
	Ways: []Way{{Needs: []string{"bottom", "top"}}, {Needs: []string{"cushion"}, Takes: []string{"sill", "panel", "gap"}}},
	Why:  "a band has a bottom and a top, or is worked out over a cushion; keep one",
}}

func bandFields(path string, starter bool) []Field {
	high := from0(maxHeight)
	return []Field{
		{Path: path + ".seat", Kind: KindEnds, limits: high, Starter: starter, Example: Each{"17 1/2", "445"}, Without: "no deck",
			How: "measure from the floor to the hard deck, without the cushion; or at both ends, [left, right]"},
		{Path: path + ".deck", Kind: KindChoice, Words: []string{"level", "follow"}, Default: same("level"),
			How: "where it is out of level, panels stay level or follow it"},
		{Path: path + ".bottom", Kind: KindLength, limits: high, Starter: starter, Example: Each{"21 1/2", "545"},
			How: "measure from the floor to where the finished panel begins"},
		{Path: path + ".top", Kind: KindLength, limits: high, Starter: starter, Example: Each{"43 1/2", "1105"},
			How: "measure from the floor to where the finished panel ends"},
		{Path: path + ".cushion", Kind: KindLength, limits: from0(geom.Metre), Example: Each{"3 3/4", "95"},
			How: "measure how thick the cushion is as it lies; write 0 when there is none"},
		{Path: path + ".sill", Kind: KindLength, limits: high, Example: Each{"33", "840"}, Without: "nothing above",
			How: "measure from the floor to the underside of what is above; not needed with panel and gap as lengths"},
		{Path: path + ".panel", Kind: KindLength, limits: over0(maxHeight), Example: Each{"8", "200"}, Without: "worked out from gap",
			How: "give the panel's height, or the gap above the cushion; the other is worked out"},
		{Path: path + ".gap", Kind: KindLength, Words: []string{"even"}, limits: from0(geom.Metre), Example: same("even"), Without: "worked out from panel",
			How: "from the cushion to the panel; even: as much as from the panel to the sill"},
	}
}

// memberFields describes studs or rails.
func memberFields(path, how, from string, starter bool) []Field {
	first, spacing, all := Each{"8", "200"}, Each{"16", "400"}, Each{"[8, 24, 40]", "[200, 600, 1000]"}
	return []Field{
		{Path: path, Kind: KindGroup, Without: "not known, and told", How: how,
			OneOf: []OneOf{{Ways: []Way{{Needs: []string{"from", "every"}}, {Needs: []string{"at"}}}, Why: "give every centre line, or the first and the spacing"}}},
		{Path: path + ".from", Kind: KindLength, limits: from0(maxWidth), Starter: starter, Example: first,
			How: "measure " + from + " to the middle of the first one"},
		{Path: path + ".every", Kind: KindLength, limits: over0(maxWidth), Starter: starter, Example: spacing, How: "measure from middle to middle"},
		{Path: path + ".at", Kind: KindLengths, limits: eitherWay(maxWidth), most: maxOnWall, Example: all,
			How: "every centre line, instead of from and every; [] when there are none"},
		{Path: path + ".width", Kind: KindLength, limits: over0(12 * geom.Inch), Default: Each{"1 1/2", "38"}, How: "across the face"},
		{Path: path + ".depth", Kind: KindLength, limits: over0(24 * geom.Inch), Starter: starter, Example: Each{"3 1/2", "95"}, Without: "not known",
			How: "of the wood behind the lining"},
		{Path: path + ".margin", Kind: KindLength, limits: from0(6 * geom.Inch), Default: Each{"3/8", "10"}, How: "how near its edge a screw may stand"},
	}
}

// placeFields describes a rectangle on the wall.
func placeFields(path string, starter bool, at, size Each) []Field {
	return []Field{
		{Path: path + ".at", Kind: KindPoint, limits: eitherWay(maxWidth), Required: true, Starter: starter, Example: at,
			How: "measure to its lower-left corner, [from the left end of the wall, up from the floor]"},
		{Path: path + ".size", Kind: KindSize, limits: over0(maxWidth), Required: true, Starter: starter, Example: size, How: "measure it, width x height"},
		{Path: path + ".margin", Kind: KindLength, limits: from0(24 * geom.Inch), Default: Each{"1", "25"}, How: "how far holes stay away from it"},
	}
}
