"""The printable list of all sessions: what is trained when, with room for the day it was done."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from sitegen.model import Episode
from sitegen.pages.home import MOST_IN_ONE, PART
from sitegen.pages.page import Page
from sitegen.pages.schedule.sentences import ScheduleSentences
from sitegen.pages.schedule.series_plan import series_plan
from sitegen.pages.sheets.address import LARGE, WEEKS, sheet_address
from sitegen.pages.sheets.trained import TRAINED
from sitegen.pages.site import Site
from sitegen.pages.views import TOTAL

ADDRESS = "sheets/index.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionLine:
    """One line of the list."""

    number: int
    title: str
    address: str
    """Of the session's page."""
    sheets: tuple[tuple[str, str], ...]
    """Address and name of each sheet."""
    when: str
    """The days that the series' calendar has for it; empty where it has none."""
    time: str
    movements: str
    muscles: str


def series_sheet(site: Site) -> Iterator[Page]:
    """The list."""
    yield Page(ADDRESS, partial(_make, site))


def _make(site: Site) -> bytes:
    days = _days(site)
    lines = [_line(site, episode, days.get(episode.number, [])) for episode in site.series.episodes]
    most = len(lines) if len(lines) <= MOST_IN_ONE else PART
    parts = [lines[start : start + most] for start in range(0, len(lines), most or 1)]
    return site.render("sheets.html", ADDRESS, parts=parts, dated=bool(days))


def _days(site: Site) -> dict[int, list[str]]:
    """By number of the session, its days in the series' calendar."""
    plan, words = series_plan(site), ScheduleSentences(site, {})
    days: dict[int, list[str]] = {}
    for placed in plan.placements if plan else ():
        days.setdefault(placed.session, []).append(words.day(placed.date))
    return days


def _line(site: Site, episode: Episode, days: list[str]) -> SessionLine:
    trained = site.facts.of(episode, TRAINED)
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
        when=", ".join(days),
        time=site.facts.of(episode, TOTAL),
        movements=", ".join(f"{name} {phrases.number(low, high)}" for name, low, high in trained.patterns),
        muscles=", ".join(trained.foremost),
    )
