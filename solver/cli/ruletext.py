"""The rules of each zone in words, and where each limit comes from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields

from models.job.data import RULE_NAMES, CentreOn, Job, Limit, Rules
from models.job.item import Item
from models.job.tree import parse_tree
from models.lengths import System, show
from solver.sheets.words import COUNTED_IN_ROWS, counted, listed

USUAL = "default: common practice, no source"
"""What a limit rests on that the job file does not give (``models.job.rule_defaults``)."""

DEFAULT_OFF = "default"
NO_MEANING = "means nothing in this bond"

HALF_UNIT = "half_unit_edges"
"""The rule whose limit is always half a unit."""

ON_AXIS = {
    CentreOn.JOINT: "a joint on it",
    CentreOn.UNIT: "the middle of a unit on it",
    CentreOn.EITHER: "a joint or the middle of a unit on it",
}


@dataclass(frozen=True, slots=True)
class Source:
    """Where a rule is written, in words, and whether it is switched off there."""

    words: str
    off: bool


Sources = Mapping[str, Mapping[str, Source]]
"""For each zone, the source of each rule it takes from the file."""


def rule_sources(text: str, file: str) -> Sources:
    """For each zone of a job file's text, where the rules it names stand.

    Raises models.job.errors.JobError as reading the job does.
    """
    root = parse_tree(text, file)
    jobs = root.find("rules")
    field = root.group["field"].find("name")
    found = {"field" if field is None else field.text: _sources(jobs)}
    handed_on = {key: source for key, source in _sources(jobs).items() if key != "centred"}
    zones = root.list_of("zones")
    for zone in zones:
        own = zone.find("rules")
        found[zone.group["name"].text] = handed_on if own is None else _sources(own)
    for zone in zones:
        mirror = zone.find("mirror")
        if mirror is not None:
            found[zone.group["name"].text] = found[mirror.group["zone"].text]
    return found


def _sources(rules: Item | None) -> dict[str, Source]:
    """The source of each rule of one group of rules."""
    given = {} if rules is None else rules.group
    return {key: Source(_source(key, item), item.value == "off") for key, item in given.items()}


def _source(key: str, item: Item) -> str:
    """The line a rule is written on; ``must`` or ``prefer`` alone leaves the limit open."""
    own_limit = not isinstance(item.value, str) or item.text == "off" or key == HALF_UNIT
    return f"line {item.line}" if own_limit else f"line {item.line}; {USUAL}"


def rule_sections(job: Job, sources: Sources) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The rules asked for and those not, each under a heading; zones of the same rules share."""
    alike: dict[tuple[tuple[str, ...], tuple[str, ...]], list[str]] = {}
    for laying in job.zones:
        found = sources[laying.name]
        lines = _asked(laying.rules, job.system, found), _off(laying.rules, found)
        alike.setdefault(lines, []).append(laying.name)
    for (asked, off), names in alike.items():
        of = f" of {listed(names)}" if len(alike) > 1 else ""
        yield f"Rules{of}, and where each limit comes from", asked
        yield f"Rules{of} not asked for", off


def _asked(rules: Rules, system: System, sources: Mapping[str, Source]) -> tuple[str, ...]:
    """Each rule asked for: its kind, name, limit and source."""
    lines = [
        f"{limit.kind.value:<6}  {RULE_NAMES[key]}: {_size(key, limit, system)}"
        f" ({sources[key].words if key in sources else USUAL})"
        for key in _keys()
        if isinstance(limit := getattr(rules, key), Limit)
    ]
    held = [
        f"{rule.kind.value:<6}  {RULE_NAMES['centred']}: {rule.axis}, {ON_AXIS[rule.on]}"
        f" ({sources['centred'].words})"
        for rule in rules.centred
    ]
    return (*lines, *held)


def _off(rules: Rules, sources: Mapping[str, Source]) -> tuple[str, ...]:
    """Each rule not asked for, and whether the file, a default or the bond says so."""
    return tuple(
        f"{RULE_NAMES[key]} ({_why_off(sources.get(key))})"
        for key in _keys()
        if not getattr(rules, key)
    )


def _why_off(source: Source | None) -> str:
    """Why a rule is not asked for."""
    if source is None:
        return DEFAULT_OFF
    return source.words if source.off else NO_MEANING


def _keys() -> list[str]:
    """The keys of all rules, in the order of the papers."""
    return [field.name for field in fields(Rules)]


def _size(key: str, limit: Limit, system: System) -> str:
    """A rule's limit in its own measure."""
    if key == HALF_UNIT:
        return "half a unit"
    if key in COUNTED_IN_ROWS:
        return counted(limit.limit, "row")
    return show(limit.limit, system)
