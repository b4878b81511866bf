package view

import (
	"strings"

	"rodsheet/template/job"
)

// labels are what fields are called on the page where the name in the file is too short for a label. A key is the end of a
// field's path, long enough to tell it from others.
var labels = map[string]string{
	"name": "name", "units": "units",
	"paper.size": "size", "paper.margin": "margin of the printer", "paper.overlap": "pages overlap by",
	"tolerance": "may be thinner by", "board.sheet": "sheets you buy", "foam.sheet": "sheets you buy", "kerf": "kerf of the saw",
	"board.saw": "cut to steps of", "pressed": "thickness pressed", "roll": "width of the roll", "repeat": "pattern repeats every",
	"wrap": "wrap on each side", "wrap.size": "on each side", "hold": "held on the back", "fold": "corners",
	"staples.length": "length of the leg", "staples.edge": "from the edge", "crown": "back stands off by",
	"holes": "screw holes", "standoff": "standoff from the wall", "lift": "lift to let go", "offset": "offset of the halves",
	"play": "halves may miss by", "clip.carries": "a pair carries", "board half": "half on the board", "wall half": "half on the wall",
	"clips": "how many clips, and where", "clips.number": "for each panel", "clips.clear": "clear of the edge", "clips.spacing": "apart at most", "clips.step": "on steps of",
	"clips.follow": "pattern", "screws.board": "screws into the board", "screws.wall": "screws into the wall", "marker": "marking bit",
	"on hand": "lengths you can get", "shims": "pads behind clips", "shims.stock": "thickness of the stock", "shims.size": "size of a pad",
	"blocks": "height blocks", "blocks.stock": "thicknesses you have", "within": "near enough", "foot": "length along the deck", "blocks.for": "used for",
	"count": "of each", "heights": "bands of height", "seat": "deck (seat)", "deck": "where it slopes", "gap": "gap",
	"sill": "underside above (sill)", "panel": "height of the panel", "heights.*.gap": "gap over the cushion", "height.gap": "gap over the cushion",
	"walls[].depth": "depth of the whole wall", "gives": "yields to the thumb", "from": "first one at", "every": "then every", "studs.at": "centre lines", "rails.at": "centre lines",
	"studs.width": "width of the face", "rails.width": "width of the face", "studs.margin": "screws clear of its edge", "rails.margin": "screws clear of its edge",
	"fittings[].at": "lower left corner", "openings[].at": "lower left corner", "keep-outs[].at": "lower left corner",
	"fittings[].margin": "holes keep away", "openings[].margin": "holes keep away", "keep-outs[].margin": "holes keep away",
	"fittings[].side": "whose side", "fittings[].heater": "kind of heater", "keep-outs": "no hole here", "walls[].corner": "joins the next wall at", "through": "who goes into the corner",
	"runs": "runs of panels", "across": "from and to", "runs[].height": "at the height of", "area": "corners of the area",
	"ends": "left free at each end", "template": "sheets for boards", "panels": "number of panels", "widths": "their widths",
	"build": "built of", "hole": "hole to drill", "reach": "reaches behind the lining", "fixings": "fixings where there is no wood", "fixings.plug": "plugs for masonry", "fixings.anchor": "anchors in the lining",
	"framing": "wood of studs and rails", "gravity": "specific gravity", "accuracy": "how exact things are", "tape": "class of the tape", "reading": "misread by at most",
	"seam": "taped seam is off by", "wander": "drill wanders by", "growth": "paper grows by", "squared": "cut edge is off by",
	"slivers": "panels too small to make", "slivers.width": "narrower or lower than", "slivers.area": "covering less than", "merge": "join to a neighbour",
	"buying": "what the list adds", "spares": "spare pairs of clips", "pack": "screws in a pack", "cables": "cables in the wall",
	"accept": "what you have dealt with", "accept[].at": "about", "because": "why it is all right",
}

// choiceLabels are what words of choices mean; a key is the name of the field and the word.
var choiceLabels = map[string]string{
	"gives true": "yes", "gives false": "no", "merge true": "yes", "merge false": "no, only tell", "units in": "inches", "units mm": "millimetres",
	"kind press": "press: goes straight on", "kind lift": "lift: hooks over, comes down", "grain free": "free: parts may be turned", "grain along": "along: parts stay upright",
	"nap up": "up: all the same way", "nap any": "any way", "follow same": "same: one for the run", "follow studs": "studs: each panel seeks wood",
	"side this": "this side", "side far": "far side of the wall", "deck level": "panels stay level", "deck follow": "panels follow it",
	"corner inside": "an inside corner", "corner outside": "an outside corner", "corner none": "no corner", "through this": "this wall’s run", "through next": "the next wall’s run",
	"template corners": "corners: jigs over the edges", "template whole": "whole boards", "for drilling": "drilling bare boards", "for hanging": "hanging finished panels",
	"cables any": "may run anywhere", "cables straight": "straight from every fitting", "heater stove": "stove, solid fuel", "tape inch": "inch tape, no class",
}

// entryNames are what one more entry of a list is called.
var entryNames = map[string]string{
	"walls": "a wall", "runs": "a run", "fittings": "a fitting", "openings": "an opening", "keep-outs": "a keep-out", "heights": "a band", "across": "a reading",
}

// wayLabels ask for one of several ways to write a thing, by the first field of the first; wayWords are the answers.
var (
	wayLabels = map[string]string{"bottom": "given by", "from": "given by", "height": "top of the wall", "across": "place", "panels": "divided into"}
	wayWords  = map[string]string{
		"bottom": "bottom and top", "cushion": "what is under and over it", "from": "first one and spacing", "at": "every centre line", "height": "level, at a height",
		"outline": "any shape, corner by corner", "across": "a row between two ends", "area": "an area, corner by corner", "panels": "equal panels", "widths": "widths one by one",
	}
)

// labelOf is what a field is called on the page.
func labelOf(f job.Field) string {
	for end := f.Path; ; {
		if label, ok := labels[end]; ok {
			return label
		}
		_, rest, more := strings.Cut(end, ".")
		if !more {
			return f.Name()
		}
		end = rest
	}
}

// choiceLabel is what a word of a field's choices means.
func choiceLabel(f job.Field, word string) string {
	if label, ok := choiceLabels[f.Name()+" "+word]; ok {
		return label
	}
	return word
}
