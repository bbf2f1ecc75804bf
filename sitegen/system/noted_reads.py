"""What is read while something is made, noted by itself: nobody has to declare what a page depends on.

Records note each look at them (:func:`recorded`) under a name such as ``exercise towel-row``. Whoever makes
something asks for the names (:func:`recording`) and keeps them with the result; it is out of date once a
record of one of these names says something else. A result that several makings share has to bring its
names along each time it is used: that is what :class:`Shared` and :class:`shared_property` are for.

One thing is made at a time in a process; threads take turns (``sitegen.preview.ahead``).
"""

from collections.abc import Callable, Collection, Hashable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import Any, Generic, TypeVar, overload

T = TypeVar("T")
R = TypeVar("R")

_noted: set[str] | None = None
"""Names read by what is being made now; None while nothing is."""


def note(name: str) -> None:
    """Note that a record was looked at."""
    if _noted is not None:
        _noted.add(name)


def note_all(names: Iterable[str]) -> None:
    """Note that several were."""
    if _noted is not None:
        _noted.update(names)


@contextmanager
def recording() -> Iterator[set[str]]:
    """The names of all that is read inside; whoever is recording outside gets them too."""
    global _noted
    outside, _noted = _noted, set()
    inside = _noted
    try:
        yield inside
    finally:
        _noted = outside
        note_all(inside)


@contextmanager
def unrecorded() -> Iterator[None]:
    """Note nothing inside: for what is worked out ahead for everybody, whose use is noted instead."""
    global _noted
    outside, _noted = _noted, None
    try:
        yield
    finally:
        _noted = outside


class Shared(Generic[R]):
    """Results by key, each worked out once; using one notes what was read for it."""

    def __init__(self) -> None:
        self._known: dict[Hashable, tuple[R, frozenset[str]]] = {}

    def get(self, key: Hashable, make: Callable[[], R]) -> R:
        """The result of that key; made now if it is not known."""
        known = self._known.get(key)
        if known is None:
            with recording() as read:
                result = make()
            known = self._known[key] = (result, frozenset(read))
        else:
            note_all(known[1])
        return known[0]


class shared_property(Generic[R]):
    """A property that is worked out once for each object; using it notes what was read for it."""

    def __init__(self, make: Callable[[Any], R]) -> None:
        self._make = make
        self.__doc__ = make.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self._name = f"_shared_{name}"

    @overload
    def __get__(self, instance: None, owner: type) -> "shared_property[R]": ...
    @overload
    def __get__(self, instance: object, owner: type) -> R: ...
    def __get__(self, instance: object | None, owner: type) -> "shared_property[R] | R":
        if instance is None:
            return self
        known: tuple[R, frozenset[str]] | None = instance.__dict__.get(self._name)
        if known is None:
            with recording() as read:
                result = self._make(instance)
            known = instance.__dict__[self._name] = (result, frozenset(read))
        else:
            note_all(known[1])
        return known[0]


def recorded(
    *, otherwise: str, silent: Collection[str], id_of: Callable[[Any], str], **fields: Collection[str]
) -> Callable[[type[T]], type[T]]:
    """Let a slotted dataclass, told apart from others of its kind by an id, note each look at its fields.

    ``fields`` gives, for a word, the fields a look at which is noted as that word and the id; the others are
    noted with the word ``otherwise``. Fields ``silent`` cannot change without another record being looked at.
    """
    words = {field: word for word, names in fields.items() for field in names}

    def instrument(kind: type[T]) -> type[T]:
        for field in vars(kind)["__slots__"]:
            if field not in silent:
                name_of = partial(_name, words.get(field, otherwise), id_of)
                setattr(kind, field, _noting(getattr(kind, field), name_of))
        return kind

    return instrument


def _name(word: str, id_of: Callable[[Any], str], record: object) -> str:
    return f"{word} {id_of(record)}"


def recorded_lists(*lists: str) -> Callable[[type[T]], type[T]]:
    """Let a slotted dataclass of which there is one note each look at these fields, as ``list NAME``."""

    def instrument(kind: type[T]) -> type[T]:
        for field in lists:
            setattr(kind, field, _noting(getattr(kind, field), partial(_list_name, field)))
        return kind

    return instrument


def _list_name(field: str, record: object) -> str:
    return f"list {field}"


def _noting(slot: Any, name_of: Callable[[Any], str]) -> property:
    read, write, delete = slot.__get__, slot.__set__, slot.__delete__

    def look(record: Any) -> Any:
        if _noted is not None:
            _noted.add(name_of(record))
        return read(record)

    return property(look, write, delete, doc=slot.__doc__)
