"""The home page: what the series is, where to start, and every session by week."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any
from unicodedata import east_asian_width

from sitegen.model import Episode
from sitegen.pages.cautions import first_sentences, short_caution
from sitegen.pages.exercises.session_weeks import weeks_by_session
from sitegen.pages.frieze import home_frieze
from sitegen.pages.needs_data import NeedsData
from sitegen.pages.page import Page
from sitegen.pages.sheets.trained import TRAINED, Trained
from sitegen.pages.site import Site
from sitegen.pages.theme import plural
from sitegen.pages.views import CARD, EpisodeCard

ADDRESS = "index.html"

_SHORT_TITLE, _MIDDLE_TITLE = 16, 32
"""Most letters of a title that is set in the largest and in the middle size: about what fits on one line
and on two lines of a phone."""

_SHORT_WORD, _MIDDLE_WORD, _LONG_WORD = 10, 14, 17
"""Most letters of its longest word, for a title in the three sizes: so many stand on a line of a phone 360
pixels wide (72, 52 and 44 pixels of type whose letters are 0.43 of that wide, measured)."""


PART = 24
"""About so many sessions stand in one part of a long list: eight weeks of three, looked over at once."""
MOST_IN_ONE = 36
"""A list of so many is not parted: folding would hide more than it clears."""

_TRAINS = 4
"""So many words say what a session trains: more fit no line of a phone."""
_ON_A_PHONE = 3
"""So many figures stand whole side by side on a phone."""
_SHOWN_CAUTIONS = 3
"""So many of the series' cautions stand on the home page, short; all, in full, before the first session."""


@dataclass(frozen=True, slots=True)
class HomeWeek:
    """The sessions of one week of the calendar, in order."""

    number: int
    """From 1; 0 for sessions that have no week, as in a series without a schedule."""
    cards: Sequence[EpisodeCard]


@dataclass(frozen=True, slots=True)
class HomePart:
    """Weeks that follow one another, folded together where there are many sessions."""

    first: int
    last: int
    """The numbers of its first and last session."""
    weeks: Sequence[HomeWeek]


def home_pages(site: Site) -> Iterator[Page]:
    """The home page."""
    yield Page(ADDRESS, partial(_make, site))


def _make(site: Site) -> bytes:
    cards = [site.facts.of(episode, CARD) for episode in site.series.episodes]
    weeks = _by_week(site, cards)
    return site.render(
        "home.html",
        ADDRESS,
        parts=in_parts(weeks),
        first=cards[0] if cards else None,
        newest=cards[-1] if cards else None,
        about=first_sentences(site.details.trainer.about, 1),
        cautions=[short_caution(one) for one in site.details.cautions[:_SHOWN_CAUTIONS]],
        counts=_counts(site, weeks),
        trains={
            card.slug: _trains(site, episode)
            for card, episode in zip(cards, site.series.episodes, strict=True)
        },
        frieze=home_frieze(site),
        frieze_narrow=home_frieze(site, _ON_A_PHONE),
        photo=site.photo(),
        title_size=title_size(site.details.title),
        needs_json=NeedsData(site).json,
    )


def _trains(site: Site, episode: Episode) -> list[str]:
    """What a session trains, in a few plain words, what has most sets first."""
    trained: Trained = site.facts.of(episode, TRAINED)
    words = site.theme.strings.home.trains
    most = sorted(trained.patterns, key=lambda pattern: -pattern[2])
    return list(dict.fromkeys(words[name] for name, _, _ in most if words.get(name)))[:_TRAINS]


def _by_week(site: Site, cards: Sequence[EpisodeCard]) -> list[HomeWeek]:
    """Sessions by week; those without a week come last."""
    week_of = weeks_by_session(site)
    found: dict[int, list[EpisodeCard]] = {}
    for card in cards:
        found.setdefault(week_of.get(card.number, 0), []).append(card)
    return [
        HomeWeek(number, found[number]) for number in sorted(found, key=lambda number: (number == 0, number))
    ]


def in_parts(weeks: Sequence[HomeWeek]) -> list[HomePart]:
    """Weeks in parts of about as many sessions, whole weeks together; one part where there are few."""
    whole = sum(len(week.cards) for week in weeks) <= MOST_IN_ONE
    parts: list[list[HomeWeek]] = []
    room = 0
    for week in weeks:
        step = len(week.cards) if whole or week.number else PART
        for start in range(0, len(week.cards), step):
            cards = week.cards[start : start + step]
            if not parts or (room < len(cards) and not whole):
                parts.append([])
                room = PART
            parts[-1].append(HomeWeek(week.number, cards))
            room -= len(cards)
    return [HomePart(part[0].cards[0].number, part[-1].cards[-1].number, part) for part in parts]


def _counts(site: Site, weeks: Sequence[HomeWeek]) -> list[tuple[int, str]]:
    """What the series holds, in a few large numbers, each with the words that say what it counts; what there
    is none of is left out."""
    words: Any = site.theme.strings.home.counts
    numbers = {
        "sessions": sum(len(week.cards) for week in weeks),
        "weeks": sum(week.number > 0 for week in weeks),
        "kit": len(site.details.kit),
        "needs": len(site.details.needs),
    }
    return [(number, plural(words[name], number)) for name, number in numbers.items() if number]


def title_size(title: str) -> str:
    """Which size of type a title is set in, by all of it and by its longest word: ``short``, ``middle``,
    ``long`` or ``one-word``, for a word that no line of a phone holds in the others."""
    wide = [_is_wide(letter) for letter in title]
    letters = len(title) + sum(wide)
    apart = "".join(" " if is_wide else letter for letter, is_wide in zip(title, wide, strict=True))
    word = max(map(len, apart.split()), default=0)
    if word > _LONG_WORD:
        return "one-word"
    if letters <= _SHORT_TITLE and word <= _SHORT_WORD:
        return "short"
    return "middle" if letters <= _MIDDLE_TITLE and word <= _MIDDLE_WORD else "long"


def _is_wide(letter: str) -> bool:
    """Whether it takes the room of two and a line may end beside it, as with Chinese and Japanese ones
    (Unicode Standard Annex 11, East Asian Width)."""
    return east_asian_width(letter) in "WF"
