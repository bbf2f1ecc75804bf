"""A file of the site: its address and how it is made. What it is made from is noted while it is made."""

import hashlib
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields, is_dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from sitegen.model import Episode, Exercise, FreePage
from sitegen.problems import ContentError, Problem


class Gateway:
    """Through a gateway makers read the series. It holds nothing that was read, but in ``Shared`` results.

    Therefore one gateway is as good as another of its kind with the same ``identity``.
    """

    identity: str = ""
    """What tells two of a kind apart, other than the site they are for."""


@dataclass(frozen=True, slots=True)
class CopyOf:
    """The bytes of another file."""

    path: Path
    digest: str
    """Fingerprint of the bytes that are to be copied."""
    check: bool = True
    """Whether the copy is compared with it: somebody may replace a large file while a build is at work."""


@dataclass(frozen=True, slots=True)
class Page:
    """One file to be written."""

    address: str
    """Path below the site's root, with ``/``."""
    make: Callable[[], bytes] | CopyOf
    """Gives the bytes: a ``partial`` of a function or of a gateway's method, given only gateways, records
    of the series and plain data; or the file to copy them from."""
    recipe: str = field(default="")
    """Fingerprint of ``make``: the function and what it is given. Records count by their ids, for what is
    read of them is noted while the page is made; plain data counts by its value."""

    def __post_init__(self) -> None:
        if not self.recipe:
            object.__setattr__(self, "recipe", recipe_of(self.make))


@dataclass(frozen=True, slots=True)
class Batch:
    """Pages that are planned together; not even planned where nothing they were made from has changed."""

    name: str
    """Tells it from the other batches of the site."""
    plan: Callable[[], Iterable[Page]]
    """Gives the pages: a ``partial`` as a page's ``make`` is one. What is read by it is noted too."""
    recipe: str = field(default="")
    """Fingerprint of ``plan``, as a page has one of its ``make``."""

    def __post_init__(self) -> None:
        if not self.recipe:
            object.__setattr__(self, "recipe", recipe_of(self.plan))


@dataclass(frozen=True, slots=True)
class PlannedBatch:
    """A batch as a build takes it."""

    batch: Batch
    pages: Sequence[Page]
    """Those to be looked at one by one; none where the build knows that all of them are as they were."""
    fingerprint: str
    """Of the addresses of all its pages."""
    addresses: Callable[[], Collection[str]]
    """Gives these."""

    @classmethod
    def planned(cls, batch: Batch, pages: Sequence[Page]) -> "PlannedBatch":
        """One whose pages are planned."""
        addresses = [page.address for page in pages]
        return cls(batch, pages, fingerprint(*addresses), lambda: addresses)

    def page(self, address: str) -> Page:
        """Its page at an address."""
        return next(page for page in self.pages or self.batch.plan() if page.address == address)


Take = Callable[[Batch], PlannedBatch]


def plan_now(batch: Batch) -> PlannedBatch:
    """Plan the pages of a batch, whatever is in place."""
    return PlannedBatch.planned(batch, list(batch.plan()))


class Addresses(Gateway):
    """The addresses of a site, which need not be looked at to tell whether they are the same."""

    def __init__(self, pages: Iterable[Page], batches: Sequence[PlannedBatch]) -> None:
        self._single = [page.address for page in pages]
        self._batches = batches
        self.identity = fingerprint(*self._single, *(taken.fingerprint for taken in batches))

    def __iter__(self) -> Iterator[str]:
        yield from self._single
        for taken in self._batches:
            yield from taken.addresses()


def recipe_of(make: Callable[[], bytes] | Callable[[], Iterable[Page]] | CopyOf) -> str:
    """Fingerprint of how something is made. TypeError for what cannot be told apart from another."""
    text = make.digest if isinstance(make, CopyOf) else _identity(make)
    return hashlib.blake2b(text.encode("utf-8", "surrogatepass"), digest_size=8).hexdigest()


def _identity(value: Any) -> str:
    known = _IDENTITIES.get(type(value))
    if known is not None:
        return known(value)
    if isinstance(value, Gateway):
        return f"{type(value).__qualname__}[{value.identity}]"
    if isinstance(value, tuple):  # a named one
        return f"{type(value).__qualname__}({','.join(map(_identity, value))})"
    if is_dataclass(value) and not isinstance(value, type):
        inner = ",".join(_identity(getattr(value, one.name)) for one in fields(value))
        return f"{type(value).__qualname__}({inner})"
    if isinstance(value, Mapping):
        return f"{{{','.join(f'{_identity(key)}:{_identity(inner)}' for key, inner in value.items())}}}"
    raise TypeError(
        f"a page cannot be made with a {type(value).__qualname__}: it must be plain data or a gateway"
    )


def _function(function: Any) -> str:
    owner = getattr(function, "__self__", None)
    name = f"{function.__module__}.{function.__qualname__}"
    if "<" in name:  # a lambda or a function in a function may hold on to anything
        raise TypeError(f"a page cannot be made by {name}: use a partial of a function that has a name")
    return name if owner is None else f"{_identity(owner)}.{name}"


def _partial(made: "partial[Any]") -> str:
    given = [*made.args, *made.keywords.items()]
    return f"{_function(made.func)}({','.join(map(_identity, given))})"


def _listed(values: Any) -> str:
    return f"({','.join(map(_identity, values))})"


_IDENTITIES: Mapping[type, Callable[[Any], str]] = {
    **dict.fromkeys((str, int, float, bool, type(None), date), repr),
    bytes: lambda data: hashlib.blake2b(data, digest_size=12).hexdigest(),
    **dict.fromkeys((tuple, list), _listed),
    Episode: lambda episode: f"episode {episode.slug}",
    Exercise: lambda exercise: f"exercise {exercise.id}",
    FreePage: lambda page: f"page {page.slug}",
    partial: _partial,
}


def fingerprint(*parts: object) -> str:
    """A short name for some values, each known by its ``str``."""
    return hashlib.blake2b("\0".join(map(str, parts)).encode(), digest_size=12).hexdigest()


def check_address(address: str) -> str:
    """The address, if it stays inside the site; every write goes through here.

    Raises ContentError otherwise: a theme or a page kind made a mistake, or content slipped through.
    """
    parts = address.split("/")
    if "\\" in address or "\0" in address or any(part in ("", ".", "..") for part in parts):
        message = f"the address {address!r} leaves the site"
        raise ContentError([Problem(severity="problem", check="address", file=address, message=message)])
    return address
