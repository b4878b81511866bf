package rule

// Cautions are the usual ones, printed once on the overview and by check. They defer to local codes and licensed
// practice, and promise nothing.
func Cautions() []string {
	return []string{
		"Cables and pipes: nothing here knows what is inside your wall. Search with a detector from both sides, switch the circuit off, and stop when the bit meets anything but lining, wood or masonry.",
		"Old paint and linings may hold lead or asbestos: textured coatings, old boards and plaster are not drilled untested. Local rules say who may work on them.",
		"Wear eye protection when drilling, cutting and grinding screw tips, and a dust mask. Catch the dust at the bit.",
		"Spray glue and solvents: open windows, no flames, no pilot lights.",
		"Rooms open to the public have fire rules for foam and cloth on walls; furniture tests don't prove a wall finish. Ask the authority before you buy.",
		"Weight overhead or above a seat or bed: a panel that falls hurts. Loads shown are arithmetic, not a licence; have fixings checked by someone who may.",
		"Where local codes or a licensed trade say otherwise than these sheets, follow them.",
	}
}
