"""Shapes of one word or text: short forms, numbers, yes or no, one of a set of words."""

import re
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from typing import Any, ClassVar

from sitegen.notation import NotationError
from sitegen.notation.habits import Habit, spelled
from sitegen.reading.schemas.report import BAD, Path, Reading, name_of
from sitegen.reading.schemas.shape import Shape
from sitegen.reading.source import MappingNode, Node, ScalarNode, SequenceNode
from sitegen.reading.suggestions import meanings, nearest_or_all, which

_MOST_DIGITS = 18
"""A number of a series has a few. Python reads none of more than 4,300 digits, and one of more than 308 is no
number to work out times or loads with."""
_MOST_LETTERS = 300
"""Of a short form. The longest there is, a load of several parts for each set, takes half; what reads short
forms may take time that grows with the square of their length."""
# One digit more than the most.
_ENDLESS = re.compile(rf"\d{{{_MOST_DIGITS + 1}}}")


def _endless(text: str) -> str:
    """What is too long in a short form; empty where nothing is."""
    if len(text) > _MOST_LETTERS:
        return f"is {len(text)} characters long"
    return f"has a number of more than {_MOST_DIGITS} digits in it" if _ENDLESS.search(text) else ""


class Scalar(Shape):
    """A shape written as one word or text; subclasses parse the characters."""

    is_short: ClassVar[bool] = False
    """Whether it is a number or a few words that are taken apart: what is long is none."""

    def parse(self, text: str) -> Any:
        """The value of the characters. Raises NotationError."""
        raise NotImplementedError

    def usual(self, text: str) -> str | None:
        """The documented form of a text that ``parse`` does not read, where it is a habit of the trade.

        Raises NotationError where it can be read in two ways.
        """
        return None

    def spelled(self, text: str) -> str:
        """A text that ``parse`` reads, in the spelling of the documentation."""
        return text

    def read(self, node: Node, reading: Reading, path: Path) -> Any:
        if not isinstance(node, ScalarNode):
            kind = "a list" if isinstance(node, SequenceNode) else "a record"
            message, advice = f"{name_of(path)} is {kind}, not {self.says}", f"write {self.says}"
            if text := _cut_at_colon(node):
                what = "the text has a colon in it, and what is before it is taken for a key"
                message, advice = f"{name_of(path)}: {what}", f'put the text in quotes: "{text}"'
            reading.report(node, "wrong-kind", message, advice)
            return BAD
        if node.tag != "text":
            reading.report(node, "tag", f"{name_of(path)} has a YAML tag ({node.tag})", "remove the tag")
            return BAD
        if self.is_short and (endless := _endless(node.value)):
            reading.report(node, "malformed", f"{name_of(path)} {endless}", f"write {self.says}")
            return BAD
        try:
            value = self.parse(node.value)
        except NotationError as error:
            return self._by_habit(node, error, reading, path)
        if reading.spellings and (spelled := self.spelled(node.value)) != node.value:
            reading.habits.append((path, node, spelled))
        return value

    def _by_habit(self, node: ScalarNode, error: NotationError, reading: Reading, path: Path) -> Any:
        """The value of what is written by habit; otherwise the problem is reported."""
        usual = None
        try:
            usual = self.usual(node.value)
        except NotationError as asking:  # it can be read in two ways
            error = asking
        if usual is not None:
            try:
                value = self.parse(usual)
            except NotationError:  # the habit holds something else that is wrong: tell of what was written
                pass
            else:
                reading.habits.append((path, node, usual))
                return value
        what, instead = _about_quotes(node.value) or (error.what, error.instead)
        reading.report(node, "malformed", f"{name_of(path)}: {what}", instead)
        return BAD


def _cut_at_colon(node: Node) -> str | None:
    """The text that YAML took for a record of one key, such as ``Sit back: knees out``."""
    if not isinstance(node, MappingNode) or len(node.value) != 1 or node.flow_style:
        return None
    key, value = node.value[0]
    plain = isinstance(key, ScalarNode) and isinstance(value, ScalarNode) and " " in key.value
    return f"{key.value}: {value.value}".replace('"', "'") if plain else None


_CURLY = "“”„‟‘’‚‛«»"


def _about_quotes(text: str) -> tuple[str, str] | None:
    """What to say of a value in the quotes that word processors make: for YAML they are part of the text."""
    bare = text.strip().strip(_CURLY)
    if bare == text.strip() or not bare:
        return None
    return f"{text} is in curly quotes, as word processors make them", f'write straight ones: "{bare}"'


class Short(Scalar):
    """A short form of the notation package, such as a dose."""

    is_short = True

    def __init__(
        self,
        says: str,
        parse: Callable[[str], Any],
        pattern_example: str,
        *,
        number: bool = False,
        habit: Habit | None = None,
    ) -> None:
        """``habit`` gives the documented form of what ``parse`` does not read, where there is one."""
        self.says = says
        # Doses and rests repeat over a series; the parsed values are immutable.
        self.parse = lru_cache(maxsize=4096)(parse)  # type: ignore[method-assign]
        self._example = pattern_example
        self._number = number
        self._habit = habit

    def usual(self, text: str) -> str | None:
        return self._habit(text) if self._habit else None

    def spelled(self, text: str) -> str:
        new = spelled(text)
        try:
            same = self._habit is not None and self.parse(new) == self.parse(text)
        except NotationError:  # a spelling that only the text as written has
            return text
        return new if same else text

    def schema(self) -> dict[str, Any]:
        kinds = ["string", "integer"] if self._number else "string"
        return {"type": kinds, "description": self.says, "examples": [self._example]}


class Whole(Scalar):
    """A whole number within bounds."""

    is_short = True

    def __init__(self, least: int, most: int) -> None:
        self.least, self.most = least, most
        self.says = f"a whole number from {least} to {most}"

    def parse(self, text: str) -> int:
        if not text.strip().isdecimal() or not self.least <= int(text) <= self.most:
            raise NotationError(f"{text!r} is not {self.says}", f"write {self.says}")
        return int(text)

    def schema(self) -> dict[str, Any]:
        return {"type": "integer", "minimum": self.least, "maximum": self.most}


class Decimal(Scalar):
    """A number within bounds."""

    is_short = True

    def __init__(self, least: float, most: float) -> None:
        self.least, self.most = least, most
        self.says = f"a number from {least:g} to {most:g}"

    def parse(self, text: str) -> float:
        try:
            value = float(text)
        except ValueError:
            value = float("nan")
        if not self.least <= value <= self.most:
            raise NotationError(f"{text!r} is not {self.says}", f"write {self.says}")
        return value

    def schema(self) -> dict[str, Any]:
        return {"type": "number", "minimum": self.least, "maximum": self.most}


class Flag(Scalar):
    """Yes or no."""

    says = "true or false"
    _words: ClassVar = {"true": True, "yes": True, "false": False, "no": False}

    def parse(self, text: str) -> bool:
        if text.strip().lower() not in self._words:
            raise NotationError(f"{text!r} is neither true nor false", "write true or false")
        return self._words[text.strip().lower()]

    def schema(self) -> dict[str, Any]:
        return {"type": "boolean"}


class OneOf(Scalar):
    """One of a set of words. A common name of the trade that means one of them is as good; for others the
    nearest is suggested."""

    def __init__(
        self,
        says: str,
        words: tuple[str, ...],
        common: str | None = None,
        instead: Mapping[str, str] | None = None,
    ) -> None:
        """``common`` is a heading of the table of common names; ``instead`` has advice for other words."""
        self.common, self.instead = common, instead or {}
        # More than eight words make a message too long; what they are called stands for them.
        self.says = f"one of {', '.join(words)}" if len(words) < 9 else says
        self.words = words
        self._what = says
        self._known = frozenset(words)

    def parse(self, text: str) -> str:
        if text in self._known:
            return text
        meant = self._meant(text)
        advice = which(meant) if meant else self.instead.get(text.strip().lower())
        advice = advice or nearest_or_all(text, self.words)
        raise NotationError(f"{text!r} is not {self._what}", advice)

    def usual(self, text: str) -> str | None:
        meant = self._meant(text)
        return meant[0] if len(meant) == 1 else None

    def _meant(self, text: str) -> Sequence[str]:
        """The words that other capitals or a common name of the trade stand for."""
        plain = text.strip().lower()
        if plain in self._known:
            return (plain,)
        return meanings(self.common, plain) if self.common else ()

    def schema(self) -> dict[str, Any]:
        return {"enum": list(self.words)}
