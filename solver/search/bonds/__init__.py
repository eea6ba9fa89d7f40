"""One zone searched in one direction, bond by bond: a search for each kind of bond."""
