"""One value of the job file together with the place it stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from models.job.errors import JobError


@dataclass(frozen=True, slots=True)
class Item:
    """A text, a list or a group of keys, and where it was written.

    ``line`` is the line of its key (of its first word inside a list). ``label`` names it
    in errors, for example ``columns 'pier', size``. A text is kept exactly as written, so
    12.50 and 12:30 stay what they are; ``quoted`` tells '12' from 12.
    """

    file: str
    line: int
    label: str
    value: str | tuple[Item, ...] | Mapping[str, Item]
    quoted: bool = False

    @property
    def text(self) -> str:
        """The text of a single value; TypeError for a list or group (the schema forbids it)."""
        if not isinstance(self.value, str):
            raise TypeError(f"{self.label} is not a single value")
        return self.value

    @property
    def entries(self) -> tuple[Item, ...]:
        """The entries of a list; TypeError for anything else (the schema forbids it)."""
        if not isinstance(self.value, tuple):
            raise TypeError(f"{self.label} is not a list")
        return self.value

    @property
    def group(self) -> Mapping[str, Item]:
        """The keys of a group; TypeError for anything else (the schema forbids it)."""
        if isinstance(self.value, str | tuple):
            raise TypeError(f"{self.label} is not a group of keys")
        return self.value

    def find(self, key: str) -> Item | None:
        """The value under a key of a group, or None."""
        return self.group.get(key)

    def list_of(self, key: str) -> tuple[Item, ...]:
        """The entries under an optional key of a group; none when the key is absent."""
        found = self.find(key)
        return () if found is None else found.entries

    def with_group(self, group: Mapping[str, Item]) -> Item:
        """The same item with other keys."""
        return replace(self, value=group)

    def error(self, problem: str, remedy: str) -> JobError:
        """The error to raise about this item."""
        return JobError(self.file, self.line, self.label, problem, remedy)
