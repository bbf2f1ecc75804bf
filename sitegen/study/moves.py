"""Where an address that changed leads now: ``moved:`` in series.yaml followed to its end."""

from collections.abc import Callable, Mapping


def place_of(address: str) -> str:
    """An address as people write it, without ``index.html``, slashes at its ends and fragment."""
    return address.partition("#")[0].strip("/").removesuffix("index.html").rstrip("/")


def fragment_of(address: str) -> str:
    """The part of a page that an address names; empty for the page itself."""
    return address.partition("#")[2]


class Moves:
    """The moves of a series. ``is_live`` says whether there is something at a place now."""

    def __init__(self, moved: Mapping[str, str], is_live: Callable[[str], bool]) -> None:
        self._new = {place_of(old): place_of(new) for old, new in moved.items()}
        self._is_live = is_live

    def end_of(self, place: str) -> str | None:
        """Where a place leads, over several moves if need be; None for nowhere or in a circle."""
        seen = set()
        while not self._is_live(place):
            if place in seen:
                return None
            seen.add(place)
            following = self._next(place)
            if following is None:
                return None
            place = following
        return place

    def goes_in_a_circle(self, place: str) -> bool:
        """Whether following the moves from a place comes back to where it was."""
        seen = set()
        while place not in seen:
            seen.add(place)
            following = self._next(place)
            if following is None or self._is_live(place):
                return False
            place = following
        return True

    def _next(self, place: str) -> str | None:
        """One move on, by the longest moved part of the address; None where it has not moved."""
        parts = place.split("/")
        for length in range(len(parts), 0, -1):
            old = "/".join(parts[:length])
            if old in self._new:
                return "/".join([p for p in (self._new[old], *parts[length:]) if p])
        return None
