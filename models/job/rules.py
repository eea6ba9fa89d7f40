"""The rules a layout is judged by: what the job file asks, and the defaults beside it."""

from __future__ import annotations

from collections.abc import Mapping

from models.job.centred_checks import check_centred
from models.job.data import Axis, Bond, BondKind, Centred, CentreOn, Kind, Limit, Rules
from models.job.item import Item
from models.job.measures import Measures
from models.job.names import look_up
from models.job.rule_checks import Basis, check_limit, check_meaning
from models.job.rule_defaults import Limits, default_limits

_COUNTING_ROWS = ("no_stair", "reuse_within")
_OF_JOINTS = ("joint_offset", "second_joint_offset", "no_stair")
_OF_ROWS = ("half_unit_edges", "balanced_cuts")


def read_rules(
    rules: Item | None, basis: Basis, axes: Mapping[str, Axis], measures: Measures
) -> Rules:
    """Every rule, given or by default; JobError for one that could never hold."""
    limits = default_limits(measures, basis.product, basis.bond)
    given = {} if rules is None else dict(rules.group)
    centred = given.pop("centred", None)
    for key, item in given.items():
        check_meaning(key, item, basis)
        limit = _limit(key, item, limits, measures)
        if limit is not None:
            check_limit(key, item, limit, basis, measures)
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


def handed_on(rules: Item | None, basis: Basis, field: Bond) -> tuple[Item | None, tuple[str, ...]]:
    """The job's rules as a zone without its own takes them, and the keys it does not take.

    Axes the field is centred on are the field's own. Rules about joints and rows stay
    behind where the zone's bond or product leaves them nothing to ask.
    """
    if rules is None:
        return None, ()
    kept = {key: item for key, item in rules.group.items() if key != "centred"}
    behind = _left_behind(basis, field)
    asked = tuple(key for key in behind if key in kept and kept[key].value != "off")
    return rules.with_group({k: v for k, v in kept.items() if k not in behind}), asked


def _left_behind(basis: Basis, field: Bond) -> tuple[str, ...]:
    """The rules of the field's bond that mean nothing, or something else, in a zone's."""
    kind = basis.bond.kind
    if kind is BondKind.HERRINGBONE:
        return _OF_JOINTS + _OF_ROWS
    if kind is BondKind.STAGGERED:
        return ("no_stair",) if basis.product.mix else ()
    return () if basis.bond == field else _OF_JOINTS


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
    asked = item.find("on")
    on = CentreOn.EITHER if asked is None else CentreOn(asked.text)
    check_centred(item, axis, on, basis)
    return Centred(kind, axis.name, on)
