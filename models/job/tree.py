"""From YAML text to items: plain values with their lines, and nothing clever.

Anchors, aliases, tags and merges are refused: a job file needs none of them, and they are
how a small file becomes a huge one. Texts are kept as written, so no length is ever turned
into a float, a time of day or a date.
"""

from __future__ import annotations

import yaml

from models.job.errors import JobError, shown
from models.job.item import Item

DEEPEST = 12
MOST_VALUES = 20_000

# Spaces that look like a space and come along when text is copied from a document.
_SPACES = {0xA0: " ", 0x2009: " ", 0x202F: " "}

_SYNTAX_REMEDY = (
    "check indentation, colons, brackets and quotes (a length such as 12' 6\" needs none round it)"
)


def parse_tree(text: str, file: str) -> Item:
    """The job file's text as a tree of items; the root is a group of keys.

    Raises JobError for text that is not YAML, for more than one document, anchors, aliases,
    tags, keys given twice, nesting over 12 deep, over 20,000 values or no keys at all.
    """
    root = _compose(text, file)
    if not isinstance(root, yaml.MappingNode):
        line = 1 if root is None else _line(root)
        raise JobError(
            file, line, "", "holds no keys", "write 'key: value' lines, or use: startrow new"
        )
    return _item(root, file, _line(root), "")


class _Composer(yaml.SafeLoader):
    """YAML nodes of one plain document; what a job file may not hold stops it at once."""

    def __init__(self, text: str, file: str) -> None:
        super().__init__(text)
        self.file = file
        self.depth = 0
        self.values = 0

    def compose_node(self, parent: yaml.Node | None, index: int) -> yaml.Node | None:
        self.depth += 1
        self.values += 1
        self._refuse(_next_event(self))
        node = super().compose_node(parent, index)
        self.depth -= 1
        return node

    def _refuse(self, event: yaml.Event) -> None:
        """Stop at an event that has no place in a job file."""
        line = _line(event)
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None) is not None:
            raise JobError(
                self.file, line, "", "uses an anchor or alias (& or *)", "write the value out"
            )
        tag = getattr(event, "tag", None)
        if tag is not None:
            raise JobError(
                self.file, line, "", f"uses a tag ({shown(tag)})", "write the value without '!'"
            )
        if self.depth > DEEPEST:
            raise JobError(
                self.file, line, "", f"is nested over {DEEPEST} deep", "check the indentation"
            )
        if self.values > MOST_VALUES:
            raise JobError(
                self.file, line, "", f"holds over {MOST_VALUES} values", "split it into jobs"
            )


def _next_event(loader: yaml.SafeLoader) -> yaml.Event:
    """The event the loader comes to next."""
    event: yaml.Event = loader.peek_event()  # type: ignore[no-untyped-call]
    return event


def _line(place: yaml.Event | yaml.Node) -> int:
    """The line an event or node starts on, counted from 1."""
    return 1 if place.start_mark is None else place.start_mark.line + 1


def _compose(text: str, file: str) -> yaml.Node | None:
    """The root node of the only document, None when there is none."""
    try:
        loader = _Composer(text, file)
        root = loader.get_node() if loader.check_node() else None
        if loader.check_node():
            raise JobError(
                file,
                _line(_next_event(loader)),
                "",
                "holds a second document",
                "one job a file; remove the '---' line",
            )
    except yaml.reader.ReaderError as error:
        line = text.count("\n", 0, error.position) + 1
        raise JobError(
            file, line, "", "holds a character YAML does not allow", "type the line again"
        ) from error
    except yaml.MarkedYAMLError as error:
        raise _syntax_error(error, file) from error
    except (ValueError, OverflowError) as error:
        # An escape such as "\UFFFFFFFF" names no character; the scanner lets chr() fail.
        raise JobError(
            file, loader.line + 1, "", "holds an impossible number or escape", "type it plainly"
        ) from error
    return root


def _syntax_error(error: yaml.MarkedYAMLError, file: str) -> JobError:
    """One plain line for a YAML syntax error, at the line the parser stopped."""
    mark = error.problem_mark or error.context_mark
    problem = " ".join((error.problem or "cannot be understood").split())
    remedy = "indent with spaces, not tabs" if r"\t" in problem else _SYNTAX_REMEDY
    return JobError(file, mark.line + 1 if mark else None, "", f"is not YAML: {problem}", remedy)


def _item(node: yaml.Node, file: str, line: int, label: str) -> Item:
    """A node and everything under it as items."""
    if isinstance(node, yaml.MappingNode):
        return Item(file, line, label, _group(node, file, label))
    if isinstance(node, yaml.SequenceNode):
        entries = tuple(
            _item(entry, file, _line(entry), _entry_label(label, entry, number))
            for number, entry in enumerate(node.value, start=1)
        )
        return Item(file, line, label, entries)
    quoted = isinstance(node, yaml.ScalarNode) and node.style in ("'", '"')
    return Item(file, line, label, _text(node, file, label), quoted)


def _group(node: yaml.MappingNode, file: str, label: str) -> dict[str, Item]:
    """The keys of a mapping in the order written; each key once."""
    group: dict[str, Item] = {}
    for key_node, value_node in node.value:
        line = _line(key_node)
        if not isinstance(key_node, yaml.ScalarNode):
            raise JobError(file, line, label, "a key is not a single word", "write 'key: value'")
        key = _text(key_node, file, label)
        if key in group:
            raise JobError(
                file,
                line,
                label,
                f"key {shown(key)} is given twice (first on line {group[key].line})",
                "keep one of them",
            )
        group[key] = _item(value_node, file, line, f"{label}, {key}" if label else key)
    return group


def _entry_label(label: str, entry: yaml.Node, number: int) -> str:
    """How errors call a list's entry: by its name if it has one, else by its number."""
    if isinstance(entry, yaml.MappingNode):
        for key, value in entry.value:
            if key.value in ("name", "wall") and isinstance(value, yaml.ScalarNode):
                name = str(value.value).translate(_SPACES).strip()
                return f"{label} {shown(name) if name.isprintable() else number}"
    return f"{label} {number}"


def _text(node: yaml.Node, file: str, label: str) -> str:
    """A scalar's text as written: one printable line."""
    text = str(node.value).translate(_SPACES).strip()
    if not text.isprintable():
        line = _line(node)
        raise JobError(
            file,
            line,
            label,
            "holds a line break or an unprintable character",
            "use one plain line",
        )
    return text
