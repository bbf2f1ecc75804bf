"""Problems and warnings: what is wrong, where, and what to write instead."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Location:
    """A place in a content file named by the path of keys to it, for example
    ``("blocks", 2, "items", 0, "dose")``.

    The model keeps locations, not line numbers: they are smaller, and a line is needed only for
    the few places that have a problem. ``content.source.locate`` finds it then.
    """

    file: str
    """Path below the content folder, with ``/``."""
    path: tuple[str | int, ...] = ()

    def at(self, *steps: str | int) -> "Location":
        """The location ``steps`` further in."""
        return Location(self.file, self.path + steps)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing to put right (``problem``: nothing is built) or to consider (``warning``)."""

    severity: str
    """``problem`` or ``warning``."""
    check: str
    """Short name of the rule, for silencing and for machines, such as ``unknown-key``."""
    message: str
    """What is wrong, one sentence without a full stop."""
    advice: str = ""
    """What to write instead."""
    file: str
    """Path below the content folder."""
    line: int | None = None
    """From 1; None where the whole file is meant or the line is not known yet."""
    column: int | None = None
    """From 1."""
    location: Location | None = None
    """Where to look the line up, for problems found after reading."""
    instead: str = ""
    """The value to write at the location, where only one can be meant; ``check --tidy`` writes it."""

    @property
    def place(self) -> str:
        """``file:line:column`` as far as known."""
        parts = [self.file, self.line, self.column]
        return ":".join(str(part) for part in parts if part is not None)

    def __str__(self) -> str:
        advice = f"\n    {self.advice}" if self.advice else ""
        return f"{self.place}: {self.severity}: {self.message} [{self.check}]{advice}"

    def as_data(self) -> dict[str, Any]:
        """The fields as plain data for ``--json``."""
        names = ("severity", "check", "file", "line", "column", "message", "advice")
        return {name: getattr(self, name) for name in names}


def found(
    severity: str, check: str, location: Location, message: str, advice: str = "", instead: str = ""
) -> Problem:
    """A problem at a location whose line is looked up later."""
    return Problem(
        severity=severity,
        check=check,
        file=location.file,
        location=location,
        message=message,
        advice=advice,
        instead=instead,
    )


def in_file(
    check: str,
    file: str,
    message: str,
    advice: str = "",
    line: int | None = None,
    column: int | None = None,
    *,
    severity: str = "problem",
) -> Problem:
    """A problem of a file, at its line and column where these are known."""
    return Problem(
        severity=severity,
        check=check,
        file=file,
        line=line,
        column=column,
        message=message,
        advice=advice,
    )


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """Sorted as a reader works through files: by file, line and column."""
    return sorted(problems, key=lambda p: (p.file, p.line or 0, p.column or 0, p.check, p.message))


class ContentError(Exception):
    """The content has problems; nothing was built."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = in_order(problems)
        super().__init__(f"{len(self.problems)} problems")

    def __reduce__(self) -> tuple[type["ContentError"], tuple[list[Problem]]]:
        """Another process that made a page hands it over whole."""
        return type(self), (self.problems,)
