"""Offcuts and units: which pieces come from one unit. The rules, told once.

Edges. Where two pieces meet inside a zone, factory edge meets factory edge; cut edges go to
walls, columns, features and other zones. So a side of a piece that is a joint lies on that
side of its unit, and a piece is *held* there; in a direction in which both its sides are cut
it may lie anywhere. A piece is held along its unit, across it, both or neither: an end piece,
a rip, a corner piece, a small piece cut all round.

Shape. A piece takes the rectangle round it, notches and all. Slanted ends alone nest: two
full-width end pieces whose cuts are parallel share one slanted cut.

Turning. A unit of a directional product keeps its direction: the low end of a piece is the
low end of its unit. Other units may be turned half a turn, square ones a quarter as well.
Where the marks on the backs are quarter-turned, every second unit lies a quarter turn to the
rows; its piece is turned back into the unit's own frame first.

Cutting. Pieces of one unit lie a kerf apart, so that straight cuts, each right through what
is left, set them free.

Scrap. A cut parts a unit along or across. What the piece laid earlier and the kerf leave of
the unit in that direction must measure at least the product's scrap size for a piece on the
other side to come from it. Pieces are laid by zone, row and place in the row.

Reuse. With a limit on rows, all pieces of one unit are laid that near to each other, and in
one zone. Otherwise the zones of a product share its units.

Shop cuts. Where a product allows cut edges at joints, no cut side holds its piece: it may
lie anywhere.

``parts`` says what each piece asks of its unit; ``pack`` shares the parts out. ``pairing``,
``place`` and ``exact`` are three ways to do that, from quick to thorough; ``cutting`` knows
what fits one unit, ``bound`` how few units there can be.

Of a finished layout, ``cutplan`` tells every cut in the order it is made and what becomes of
both parts. ``wanted`` reads from each piece's outline what it asks of its unit, ``trims`` and
``arrange`` find where in the unit it lies and which cuts set it free, ``pattern`` draws that.
Pieces are then taken as the crew lays them: rows up from the start row, then back down.
"""
