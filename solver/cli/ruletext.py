"""The rules of a job in words, and where each limit comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from models.job.data import RULE_NAMES, CentreOn, Job, Limit, Rules
from models.job.item import Item
from models.job.tree import parse_tree
from models.lengths import System, show
from solver.sheets.words import COUNTED_IN_ROWS, counted

USUAL = "default: common practice, no source"
"""What a limit rests on that the job file does not give (``models.job.rule_defaults``)."""

DEFAULT_OFF = "default"

HALF_UNIT = "half_unit_edges"
"""The rule whose limit is always half a unit."""

ON_AXIS = {
    CentreOn.JOINT: "a joint on it",
    CentreOn.UNIT: "the middle of a unit on it",
    CentreOn.EITHER: "a joint or the middle of a unit on it",
}


def rule_sources(text: str, file: str) -> dict[str, str]:
    """For each rule a job file's text names, its line and whether the limit is its own.

    Raises models.job.errors.JobError as reading the job does.
    """
    rules = parse_tree(text, file).find("rules")
    given = {} if rules is None else rules.group
    return {key: _source(key, item) for key, item in given.items()}


def _source(key: str, item: Item) -> str:
    """The line a rule is written on; ``must`` or ``prefer`` alone leaves the limit open."""
    own_limit = not isinstance(item.value, str) or item.text == "off" or key == HALF_UNIT
    return f"line {item.line}" if own_limit else f"line {item.line}; {USUAL}"


def rule_lines(job: Job, sources: Mapping[str, str]) -> list[str]:
    """Each rule asked for: its kind, name, limit and source."""
    rules = job.field.rules
    lines = [
        f"{limit.kind.value:<6}  {RULE_NAMES[key]}: {_size(key, limit, job.system)}"
        f" ({sources.get(key, USUAL)})"
        for key in _keys()
        if isinstance(limit := getattr(rules, key), Limit)
    ]
    held = [
        f"{rule.kind.value:<6}  {RULE_NAMES['centred']}: {rule.axis}, {ON_AXIS[rule.on]}"
        f" ({sources['centred']})"
        for rule in rules.centred
    ]
    return lines + held


def off_lines(job: Job, sources: Mapping[str, str]) -> list[str]:
    """Each rule not asked for, and whether the file or a default says so."""
    rules = job.field.rules
    return [
        f"{RULE_NAMES[key]} ({sources.get(key, DEFAULT_OFF)})"
        for key in _keys()
        if not getattr(rules, key)
    ]


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
