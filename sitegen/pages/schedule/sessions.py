"""The sessions of a series as the schedule shows them."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sitegen.model import Episode
from sitegen.pages.schedule.facts import SESSION, read_session
from sitegen.pages.site import Site
from sitegen.study.agenda import Brief


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
    brief: Brief
    items: tuple[tuple[str, str, str], ...]


def scheduled_sessions(site: Site) -> dict[int, ScheduledSession]:
    """By number, those that are not out yet among them."""
    out = {episode.slug for episode in site.series.episodes}
    return {e.number: _session(site, e, out=e.slug in out) for e in site.series.sessions}


def _session(site: Site, episode: Episode, *, out: bool) -> ScheduledSession:
    fact = read_session(site.facts.of(episode, SESSION), episode)
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
        items=fact.items,
    )


def titles(sessions: Mapping[int, ScheduledSession]) -> dict[int, str]:
    """Titles by number."""
    return {number: session.title for number, session in sessions.items()}
