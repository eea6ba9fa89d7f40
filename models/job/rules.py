"""The rules a layout is judged by: what the job file asks, and the defaults beside it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from models.job.data import (
    Axis,
    Bond,
    Centred,
    CentreOn,
    Direction,
    Kind,
    Limit,
    Product,
    Rules,
)
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.rule_checks import check_centred, check_limit
from models.job.rule_defaults import Limits, default_limits

_COUNTING_ROWS = ("no_stair", "reuse_within")


@dataclass(frozen=True, slots=True)
class Basis:
    """What a rule's limit is judged against: the product, its bond and its directions."""

    product: Product
    bond: Bond
    directions: Sequence[Direction]


def read_rules(
    rules: Item | None, basis: Basis, axes: Mapping[str, Axis], measures: Measures
) -> Rules:
    """Every rule, given or by default; JobError for one that could never hold."""
    limits = default_limits(measures, basis.product, basis.bond)
    given = {} if rules is None else dict(rules.group)
    centred = given.pop("centred", None)
    for key, item in given.items():
        limit = _limit(key, item, limits, measures)
        if limit is not None:
            check_limit(key, item, limit, basis.product, basis.bond, measures)
        limits[key] = limit
    _settle_tape_tolerance(limits, given.get("tape_tolerance"))
    entries = () if centred is None else centred.entries
    held = tuple(_centred(item, basis, axes) for item in entries)
    return Rules(
        smallest_cut=limits["smallest_cut"],
        half_unit_edges=limits["half_unit_edges"],
        smallest_end=limits["smallest_end"],
        joint_offset=limits["joint_offset"],
        second_joint_offset=limits["second_joint_offset"],
        no_stair=limits["no_stair"],
        balanced_cuts=limits["balanced_cuts"],
        reuse_within=limits["reuse_within"],
        tape_tolerance=limits["tape_tolerance"],
        centred=held,
    )


def _limit(key: str, item: Item, defaults: Limits, measures: Measures) -> Limit | None:
    """One rule as written: off, a kind with the default limit, or a kind with its own."""
    if isinstance(item.value, str):
        if item.text == "off":
            return None
        default = defaults[key]
        if default is None:
            raise item.error("has no default limit here", f"write {{{item.text}: how much}}")
        return Limit(Kind(item.text), default.limit)
    ((kind, value),) = item.group.items()
    if key in _COUNTING_ROWS:
        return Limit(Kind(kind), int(value.text))
    return Limit(Kind(kind), measures.gap(value))


def _settle_tape_tolerance(limits: Limits, given: Item | None) -> None:
    """Without a cut limit nothing can be lost to tape error: no such rule."""
    if limits["smallest_cut"] is None and limits["smallest_end"] is None:
        if given is not None and limits["tape_tolerance"] is not None:
            raise given.error(
                "there is no cut limit to keep", "ask for smallest_cut, or switch this off"
            )
        limits["tape_tolerance"] = None


def _centred(item: Item, basis: Basis, axes: Mapping[str, Axis]) -> Centred:
    """One axis the field's lines are held on."""
    kind = Kind.MUST if "must" in item.group else Kind.PREFER
    axis = look_up(item.group[kind.value], axes, "axis")
    check_centred(item, axis, basis.bond, basis.directions)
    on = item.find("on")
    return Centred(kind, axis.name, CentreOn.EITHER if on is None else CentreOn(on.text))
