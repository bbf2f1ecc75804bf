"""The demo's feed against RFC 4287 (Atom, 2005), read by feedparser, which knows nothing of us."""

import re
from pathlib import Path

import feedparser
import pytest
from feedparser import FeedParserDict

RFC_3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)")


@pytest.fixture(scope="module")
def feed(demo_site: Path) -> FeedParserDict:
    parsed: FeedParserDict = feedparser.parse((demo_site / "feed.xml").read_bytes())
    return parsed


def test_it_is_atom_and_well_formed(feed: FeedParserDict) -> None:
    assert (feed.version, feed.bozo) == ("atom10", False)


def test_the_feed_has_what_it_must(feed: FeedParserDict) -> None:
    """Section 4.1.1: one id, title and updated; an author, for entries have none; a link to itself."""
    assert feed.feed.id == "https://movement.example/galley/"
    assert feed.feed.title == "Galley Strength"
    assert feed.feed.author == "Robin Vale"
    assert RFC_3339.fullmatch(feed.feed.updated)
    links = {link.rel: (link.href, link.type) for link in feed.feed.links}
    assert links == {
        "self": ("https://movement.example/galley/feed.xml", "application/atom+xml"),
        "alternate": ("https://movement.example/galley/", "text/html"),
    }


def test_every_entry_has_what_it_must(feed: FeedParserDict) -> None:
    """Section 4.1.2: id, title, updated; an alternate link, for there is no content."""
    assert len(feed.entries) == 12
    assert len({entry.id for entry in feed.entries}) == 12
    for entry in feed.entries:
        assert entry.id.startswith("https://movement.example/galley/episodes/")
        assert entry.title
        assert entry.summary
        assert RFC_3339.fullmatch(entry.updated)
        assert [link.rel for link in entry.links] == ["alternate"]


def test_dates_are_understood(feed: FeedParserDict) -> None:
    newest = feed.entries[0]
    assert newest.title == "12. Home berth"
    assert tuple(newest.updated_parsed)[:6] == (2026, 10, 2, 0, 0, 0)
    assert feed.feed.updated_parsed == newest.updated_parsed


def test_pages_point_to_it(demo_site: Path) -> None:
    page = (demo_site / "episodes" / "ballast" / "index.html").read_text()
    expected = '<link rel="alternate" type="application/atom+xml" title="New sessions of Galley Strength" '
    assert f'{expected}href="../../feed.xml">' in page
