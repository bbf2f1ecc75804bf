"""The feed (Atom, RFC 4287): an entry for each of the newest episodes that are out and have a release date.

Ids are the addresses at which the site and the episodes were first published; they outlive a renaming
(section 4.2.6). Dates are the release dates, so that two builds of the same content are the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial

from sitegen.model import Episode
from sitegen.pages.episode.address import episode_address
from sitegen.pages.page import Page
from sitegen.pages.plain_text import plain_text
from sitegen.pages.site import Site
from sitegen.study.calendar_entries import first_slug

ADDRESS = "feed.xml"
NEWEST = 50
"""So many entries it has at most: readers of feeds keep what they have seen, and ask for the whole file each
time. Common practice, no source; three sessions a week are four months of them."""
NOTHING_YET = date(1970, 1, 1)
"""Date of a feed without entries: one there must be (section 4.1.1)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedEntry:
    """An episode in the feed."""

    id: str
    address: str
    number: int
    title: str
    summary: str
    updated: str
    """RFC 3339: the first moment of the release date."""


def feed_pages(site: Site) -> Iterator[Page]:
    """The feed."""
    dated = [(e.released, e.number, e) for e in site.series.episodes if e.released is not None]
    newest_first = [e for *_, e in sorted(dated, key=lambda one: one[:2], reverse=True)]
    yield Page(ADDRESS, partial(_make, site, newest_first[:NEWEST]))


def _make(site: Site, episodes: list[Episode]) -> bytes:
    newest = episodes[0].released if episodes else None
    return site.render(
        "feed.xml",
        ADDRESS,
        id=site.details.address,
        summary=plain_text(site.details.summary),
        updated=_moment(newest or NOTHING_YET),
        entries=[_entry(site, episode) for episode in episodes],
    )


def _entry(site: Site, episode: Episode) -> FeedEntry:
    first = episode_address(first_slug(site.details.moved, episode.slug))
    return FeedEntry(
        id=site.public(first),
        address=site.public(episode_address(episode.slug)),
        number=episode.number,
        title=episode.title,
        summary=plain_text(episode.summary),
        updated=_moment(episode.released or NOTHING_YET),
    )


def _moment(day: date) -> str:
    return f"{day.isoformat()}T00:00:00Z"
