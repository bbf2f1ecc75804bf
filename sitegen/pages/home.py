"""The home page: what the series is, where to start, and every session by week."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from sitegen.pages.adaptation import Adaptation
from sitegen.pages.cautions import short_caution
from sitegen.pages.exercises.weeks import weeks_by_session
from sitegen.pages.frieze import home_frieze
from sitegen.pages.page import Page
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.pages.views import EpisodeCard

ADDRESS = "index.html"

_SHORT_TITLE, _MIDDLE_TITLE = 16, 32
"""Most letters of a title that is set in the largest and in the middle size: about what fits on one line
and on two lines of a phone."""


_SHOWN_CAUTIONS = 3
"""So many of the series' cautions stand on the home page, short; all, in full, before the first session."""


@dataclass(frozen=True, slots=True)
class Week:
    """The sessions of one week of the calendar, in order."""

    number: int
    """From 1; 0 for sessions that have no week, as in a series without a schedule."""
    cards: Sequence[EpisodeCard]


@dataclass(frozen=True, slots=True)
class Count:
    """A large number with the words that say what it counts."""

    number: int
    words: str


def home_pages(site: Site) -> Iterator[Page]:
    """The home page."""
    yield Page(ADDRESS, partial(_make, site))


def _make(site: Site) -> bytes:
    cards = [site.facts.of(episode, "card") for episode in site.series.episodes]
    weeks, adaptation = _by_week(site, cards), Adaptation(site)
    return site.render(
        "home.html",
        ADDRESS,
        weeks=weeks,
        first=cards[0] if cards else None,
        newest=cards[-1] if cards else None,
        cautions=[short_caution(one) for one in site.details.cautions[:_SHOWN_CAUTIONS]],
        counts=_counts(site, weeks),
        frieze=home_frieze(site),
        photo=site.photo(),
        title_size=title_size(site.details.title),
        prefix=adaptation.prefix,
        needs_json=adaptation.needs_json,
    )


def _by_week(site: Site, cards: Sequence[EpisodeCard]) -> list[Week]:
    """Sessions by week; those without a week come last."""
    week_of = weeks_by_session(site)
    found: dict[int, list[EpisodeCard]] = {}
    for card in cards:
        found.setdefault(week_of.get(card.number, 0), []).append(card)
    return [Week(number, found[number]) for number in sorted(found, key=lambda number: (number == 0, number))]


def _counts(site: Site, weeks: Sequence[Week]) -> list[Count]:
    """What the series holds, in a few large numbers; what there is none of is left out."""
    words: Any = site.theme.strings.home.counts
    numbers = {
        "sessions": sum(len(week.cards) for week in weeks),
        "weeks": sum(week.number > 0 for week in weeks),
        "kit": len(site.details.kit),
        "needs": len(site.details.needs),
    }
    return [Count(number, plural(words[name], number)) for name, number in numbers.items() if number]


def title_size(title: str) -> str:
    """Which size of type a title is set in: ``short``, ``middle`` or ``long``."""
    if len(title) <= _SHORT_TITLE:
        return "short"
    return "middle" if len(title) <= _MIDDLE_TITLE else "long"
