"""From wand to foil: the wand in the water and the chain of rods."""
