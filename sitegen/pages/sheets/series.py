"""The printable list of all sessions: what is trained when, with room for the day it was done."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from sitegen.model import Episode
from sitegen.output.page import Page, fingerprint
from sitegen.pages.sheets.address import LARGE, WEEKS, sheet_address
from sitegen.pages.site import Site
from sitegen.study.recovery import hard_muscles
from sitegen.study.volume import pattern_sets
from sitegen.vocabulary import PATTERNS

ADDRESS = "sheets/index.html"
TRAINED = "trained"
"""Name of the fact."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trained:
    """What one session trains."""

    patterns: tuple[tuple[str, float, float], ...]
    """Each pattern with its fewest and most sets, in the vocabulary's order."""
    muscles: tuple[str, ...]
    """Those trained hard."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionLine:
    """One line of the list."""

    number: int
    title: str
    address: str
    """Of the session's page."""
    sheets: tuple[tuple[str, str], ...]
    """Address and name of each sheet."""
    time: str
    movements: str
    muscles: str


def trained_fact(site: Site, episode: Episode) -> Trained:
    """What a session trains: a fact."""
    sets = pattern_sets(site.details, site.forms, [episode])
    return Trained(
        patterns=tuple((name, sets[name].low, sets[name].high) for name in PATTERNS if name in sets),
        muscles=tuple(sorted(hard_muscles(site.details, site.forms, episode))),
    )


def series_sheet(site: Site) -> Iterator[Page]:
    """The list."""
    episodes = site.series.episodes
    key = fingerprint(
        site.key, "sheets", site.facts.key("card", *episodes), site.facts.key(TRAINED, *episodes)
    )
    yield Page(ADDRESS, key, partial(_make, site))


def _make(site: Site) -> bytes:
    return site.render(
        "sheets.html", ADDRESS, lines=[_line(site, episode) for episode in site.series.episodes]
    )


def _line(site: Site, episode: Episode) -> SessionLine:
    card, trained = site.facts.of(episode, "card"), site.facts.of(episode, TRAINED)
    words, phrases = site.theme.strings.sheets, site.phrases
    slug = episode.slug
    return SessionLine(
        number=episode.number,
        title=episode.title,
        address=f"episodes/{slug}/index.html",
        sheets=(
            (sheet_address(slug), words.usual),
            (sheet_address(slug, LARGE), words.large),
            (sheet_address(slug, WEEKS), words.weeks),
        ),
        time=card.total,
        movements=", ".join(f"{name} {phrases.number(low, high)}" for name, low, high in trained.patterns),
        muscles=", ".join(trained.muscles),
    )
