"""Where an address that changed leads now: ``moved:`` in series.yaml followed to its end."""

from collections.abc import Callable, Iterator, Mapping


def place_of(address: str) -> str:
    """An address as people write it, without ``index.html``, slashes at its ends and fragment."""
    return address.partition("#")[0].strip("/").removesuffix("index.html").rstrip("/")


def fragment_of(address: str) -> str:
    """The part of a page that an address names; empty for the page itself."""
    return address.partition("#")[2]


class MovedAddresses:
    """The moves of a series. ``is_live`` says whether there is something at a place now."""

    def __init__(self, moved: Mapping[str, str], is_live: Callable[[str], bool]) -> None:
        self._new = {place_of(old): place_of(new) for old, new in moved.items()}
        self._is_live = is_live

    def end_of(self, place: str) -> str | None:
        """Where a place leads, over several moves if need be; None for nowhere or in a circle."""
        return next(filter(self._is_live, self._way_from(place)), None)

    def goes_in_a_circle(self, place: str) -> bool:
        """Whether following the moves from a place never comes to an end."""
        way = list(self._way_from(place))
        return not self._is_live(way[-1]) and self._next(way[-1]) is not None

    def _way_from(self, place: str) -> Iterator[str]:
        """The places that the moves lead to, up to the first live one; each move is made once at most."""
        yield place
        for _ in self._new:
            following = None if self._is_live(place) else self._next(place)
            if following is None:
                return
            place = following
            yield place

    def _next(self, place: str) -> str | None:
        """One move on, by the longest moved part of the address; None where it has not moved."""
        parts = place.split("/")
        for length in range(len(parts), 0, -1):
            old = "/".join(parts[:length])
            if old in self._new:
                return "/".join([p for p in (self._new[old], *parts[length:]) if p])
        return None
