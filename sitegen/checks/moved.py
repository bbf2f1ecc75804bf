"""Addresses that changed must lead somewhere: links to them were sent to clients."""

from collections.abc import Iterator

from sitegen.checks.material import Material
from sitegen.model import Series
from sitegen.problems import Problem, found
from sitegen.study.moved_addresses import MovedAddresses, fragment_of, place_of

SECTIONS = ("", "about", "balance", "before-you-start", "exercises", "kept", "needs", "schedule", "sheets")
"""Places that every series has, or may have."""
_GENERATED = ("exercises/by/",)
"""What lies below these places depends on all exercises."""


def check_moved(material: Material) -> Iterator[Problem]:
    """Moves from a live page, to nowhere, or in a circle."""
    series = material.series
    live = live_places(series)
    moves = MovedAddresses(series.details.moved, lambda place: _is_live(place, live))
    for old, new in series.details.moved.items():
        place = place_of(old)
        if place in live:
            message = (
                f"{place or 'the home page'!r} is said to have moved, but there is a page at that address"
            )
            advice = "remove the line, or give the new page another address"
        elif moves.goes_in_a_circle(place):
            message, advice = f"{place!r} leads in a circle", "let it lead to where the page is now"
        elif moves.end_of(place_of(new)) is None:
            message = f"{place!r} leads to {new!r}, and there is nothing"
            advice = "write the page's address as it is now, such as episodes/steady-pull"
        elif fragment_of(old):
            message = f"{old!r} names a part of a page; servers are never told which part was asked for"
            advice = "leave out what follows the #"
        else:
            continue
        yield found("problem", "moved", series.details.location.at("moved", old), message, advice)


def live_places(series: Series) -> set[str]:
    """Where there is a page, as addresses are written: without ``index.html``."""
    return {
        *SECTIONS,
        *(page.slug for page in series.pages),
        *(f"episodes/{episode.slug}" for episode in (*series.episodes, *series.upcoming)),
        *(f"exercises/{exercise}" for exercise in series.exercises),
        *(f"needs/{need}" for need in series.details.needs),
    }


def _is_live(place: str, live: set[str]) -> bool:
    """Whether there is a page; what lies below an episode or an exercise is taken to be there."""
    parts = place.split("/")
    # Its own address is none that lies below it.
    return place in live or "/".join(parts[:2]) in live - {place} or place.startswith(_GENERATED)
