"""The sessions of a series as the schedule shows them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sitegen.model import Episode
from sitegen.pages.schedule.facts import SESSION, SessionFact
from sitegen.pages.site import Site
from sitegen.study.calendar_entries import SessionSummary

FETCH_ROOM = 120
"""Letters that go into five lines of 8 points in a day of the printed month, at least 31 mm wide inside: 29
letters of the sheets' face to a line (0.383 em), less what lines lose at their ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScheduledSession:
    """A session with the words that are the same on whichever day it is done."""

    number: int
    slug: str
    title: str
    out: bool
    """False where it is shown as coming: it has no page yet."""
    released: date | None
    coming: str
    """Day on which it comes out; empty where it is out."""
    time: str
    """``45–47 min``; empty where the video's length is not known."""
    brief: SessionSummary
    fetch: str
    """What to fetch, as far as a day of the printed month has room for it."""
    items: tuple[tuple[str, str, str], ...]


def scheduled_sessions(site: Site) -> dict[int, ScheduledSession]:
    """By number, those that are not out yet among them."""
    out = {episode.slug for episode in site.series.episodes}
    return {e.number: _session(site, e, out=e.slug in out) for e in site.series.sessions}


def _session(site: Site, episode: Episode, *, out: bool) -> ScheduledSession:
    fact: SessionFact = site.facts.of(episode, SESSION)
    brief = fact.brief
    return ScheduledSession(
        number=episode.number,
        slug=episode.slug,
        title=episode.title,
        out=out,
        released=episode.released,
        coming="" if out or episode.released is None else site.phrases.day(episode.released),
        time=site.phrases.about(brief.seconds) if brief.seconds else "",
        brief=brief,
        fetch=fetch_words(site, brief.kit),
        items=fact.items,
    )


def fetch_words(site: Site, kit: Sequence[str]) -> str:
    """The pieces that fit, whole, and how many more there are: ``Sturdy chair, Bath towel and 2 more``."""
    words = site.theme.strings.schedule.months
    count, length = 0, 0
    for piece in kit:
        length += len(piece) + len(words.comma)
        if length > FETCH_ROOM:
            break
        count += 1
    shown = words.comma.join(kit[: max(1, count)])
    left = len(kit) - max(1, count)
    return str(words.and_more.format(pieces=shown, n=left)) if left > 0 else shown


def titles(sessions: Mapping[int, ScheduledSession]) -> dict[int, str]:
    """Titles by number."""
    return {number: session.title for number, session in sessions.items()}
