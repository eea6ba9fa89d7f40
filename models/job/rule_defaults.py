"""The limits that apply where the job file says nothing: common practice, no source.

The product maker's instructions govern; every default can be overridden or switched off.
"""

from __future__ import annotations

from models.job.data import Bond, BondKind, Kind, Limit, Product
from models.job.measures import Measures
from models.job.products import shortest

Limits = dict[str, Limit | None]
"""The limit of each rule by its key, None for a rule that is not asked for."""


def default_limits(measures: Measures, product: Product, bond: Bond) -> Limits:
    """The default of every rule with a limit, in ticks or rows."""
    limits = _any_bond(measures, product)
    if bond.kind is BondKind.STAGGERED:
        limits |= _staggered(measures, product)
    if bond.kind is BondKind.HERRINGBONE:
        limits |= {"half_unit_edges": None, "balanced_cuts": None}
    return limits


def _any_bond(measures: Measures, product: Product) -> Limits:
    """Defaults of a bond that fixes its joints, which need no keeping apart."""
    cut = Limit(Kind.MUST, min(measures.pick("2 in", "50 mm"), product.width // 2))
    return {
        "smallest_cut": cut,
        "half_unit_edges": Limit(Kind.PREFER, 0),
        "smallest_end": cut,
        "joint_offset": None,
        "second_joint_offset": None,
        "no_stair": None,
        "balanced_cuts": Limit(Kind.PREFER, measures.pick("1 in", "25 mm")),
        "reuse_within": None,
        "tape_tolerance": Limit(Kind.PREFER, measures.pick("1/16 in", "1 mm")),
    }


def _staggered(measures: Measures, product: Product) -> Limits:
    """What a staggered bond adds: longer end pieces, and end joints kept apart.

    Of mixed lengths the shortest decides; they make no stair, so no rule forbids one.
    """
    length = shortest(product)
    return {
        "smallest_end": Limit(Kind.MUST, min(measures.pick("8 in", "200 mm"), length // 4)),
        "joint_offset": Limit(Kind.MUST, min(measures.pick("6 in", "150 mm"), length // 3)),
        "second_joint_offset": Limit(Kind.PREFER, min(measures.pick("2 in", "50 mm"), length // 6)),
        "no_stair": None if product.mix else Limit(Kind.PREFER, 3),
    }
