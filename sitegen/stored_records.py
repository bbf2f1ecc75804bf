"""Records that are cached between runs: quick to store and load, large ones opened only when used."""

import pickle
from contextlib import suppress
from typing import TYPE_CHECKING, Any, ClassVar

_set = object.__setattr__


class Record:
    """Base of frozen, slotted dataclasses: stored as their values in order.

    What ``dataclass`` itself does for frozen classes looks every field up by name and takes ten
    times as long; a series of 1,000 episodes has 70,000 records.
    """

    __slots__: tuple[str, ...] = ()

    def __reduce__(self) -> tuple[Any, ...]:
        kind = type(self)
        return _rebuild, (kind, tuple(getattr(self, name) for name in kind.__slots__))


def _rebuild(kind: type[Record], values: tuple[Any, ...]) -> Record:
    record = object.__new__(kind)
    for name, value in zip(kind.__slots__, values, strict=True):
        _set(record, name, value)
    return record


class FoldingRecord(Record):
    """A record whose fields named in ``folded`` stay packed until one of them is asked for.

    A build that changes one episode thereby loads the others' titles and numbers, but not the
    thousands of items inside them; storing an unopened record again costs nothing either.
    """

    __slots__: tuple[str, ...] = ("_packed",)
    folded: ClassVar[tuple[str, ...]] = ()

    def __reduce__(self) -> tuple[Any, ...]:
        kind = type(self)
        outer = tuple(getattr(self, name) for name in kind.__slots__ if name not in kind.folded)
        return _rebuild_folded, (kind, outer, self._as_packed())

    def _as_packed(self) -> bytes:
        try:
            packed: bytes = object.__getattribute__(self, "_packed")
        except AttributeError:
            inner = tuple(getattr(self, name) for name in type(self).folded)
            packed = pickle.dumps(inner, pickle.HIGHEST_PROTOCOL)
        return packed

    def fold(self) -> None:
        """Let go of what is open: it opens again when it is asked for."""
        _set(self, "_packed", self._as_packed())
        for name in type(self).folded:
            with suppress(AttributeError):  # it is not open
                object.__delattr__(self, name)

    if not TYPE_CHECKING:  # a type checker would take any attribute for a known one

        def __getattr__(self, name):
            # Called only where a slot is empty: a folded field of a record that was loaded.
            if name not in type(self).folded:
                raise AttributeError(f"{type(self).__name__!r} has no attribute {name!r}")
            packed = object.__getattribute__(self, "_packed")
            for field, value in zip(type(self).folded, pickle.loads(packed), strict=True):
                _set(self, field, value)
            return object.__getattribute__(self, name)


def _rebuild_folded(kind: type[FoldingRecord], outer: tuple[Any, ...], packed: bytes) -> FoldingRecord:
    record = object.__new__(kind)
    names = (name for name in kind.__slots__ if name not in kind.folded)
    for name, value in zip(names, outer, strict=True):
        _set(record, name, value)
    _set(record, "_packed", packed)
    return record
