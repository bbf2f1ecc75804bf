"""The feed: an entry for each episode that is out, with ids and dates that stay."""

from datetime import date
from pathlib import Path
from xml.etree import ElementTree

import pytest

from sitegen.building.build import Builder
from tests.sessions import SessionFolder

ATOM = "{http://www.w3.org/2005/Atom}"
ROW = "backpack-row, dose: 8"


def feed_of(series: SessionFolder, today: date | None = None) -> ElementTree.Element:
    builder = Builder(series.root, series.root.parent / "build", jobs=1, today=today)
    page = next(page for page in builder.plan(builder.read()) if page.address == "feed.xml")
    assert not isinstance(page.make, Path)
    return ElementTree.fromstring(page.make())


def entries(feed: ElementTree.Element) -> list[tuple[str, ...]]:
    names = ("id", "title", "updated")
    return [
        tuple(entry.findtext(f"{ATOM}{name}") or "" for name in names) for entry in feed.iter(f"{ATOM}entry")
    ]


def test_the_newest_first_with_the_moment_of_their_release(tmp_path: Path) -> None:
    series = SessionFolder(tmp_path)
    series.session(1, ROW, head="released: 2027-01-04")
    series.session(2, ROW, head="released: 2027-01-07")
    series.session(3, ROW)
    feed = feed_of(series)

    assert entries(feed) == [
        ("https://series.example/episodes/session-2/", "2. Session 2", "2027-01-07T00:00:00Z"),
        ("https://series.example/episodes/session-1/", "1. Session 1", "2027-01-04T00:00:00Z"),
    ]
    assert feed.findtext(f"{ATOM}updated") == "2027-01-07T00:00:00Z"


def test_of_two_released_on_a_day_the_later_number_comes_first(tmp_path: Path) -> None:
    series = SessionFolder(tmp_path)
    series.session(1, ROW, head="released: 2027-01-04")
    series.session(2, ROW, head="released: 2027-01-04")

    assert [title for _, title, _ in entries(feed_of(series))] == ["2. Session 2", "1. Session 1"]


def test_of_many_the_newest_are_in_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sitegen.pages.feed.NEWEST", 2)
    series = SessionFolder(tmp_path)
    for day in (4, 7, 11):
        series.session(day, ROW, head=f"released: 2027-01-{day:02}")

    assert [title for _, title, _ in entries(feed_of(series))] == ["11. Session 11", "7. Session 7"]


def test_what_is_not_out_yet_is_not_in_it(tmp_path: Path) -> None:
    series = SessionFolder(tmp_path)
    series.session(1, ROW, head="released: 2027-01-04")
    series.session(2, ROW, head="released: 2027-01-07")

    assert len(entries(feed_of(series, date(2027, 1, 6)))) == 1
    assert len(entries(feed_of(series, date(2027, 1, 7)))) == 2


def test_a_renamed_episode_keeps_its_id(tmp_path: Path) -> None:
    """RFC 4287, 4.2.6: an id never changes, whatever becomes of the address."""
    series = SessionFolder(tmp_path, more="moved: {episodes/first-day: episodes/session-1}\n")
    series.session(1, ROW, head="released: 2027-01-04")
    feed = feed_of(series)

    assert entries(feed)[0][0] == "https://series.example/episodes/first-day/"
    link = feed.find(f"{ATOM}entry/{ATOM}link")
    assert link is not None
    assert link.get("href") == "https://series.example/episodes/session-1/"


def test_markup_and_signs_in_words(tmp_path: Path) -> None:
    series = SessionFolder(tmp_path)
    series.session(1, ROW, head='released: 2027-01-04\nsummary: "Rows & *more* < 5 kg"')

    assert feed_of(series).findtext(f"{ATOM}entry/{ATOM}summary") == "Rows & more < 5 kg"


def test_an_empty_feed_has_a_date_all_the_same(tmp_path: Path) -> None:
    feed = feed_of(SessionFolder(tmp_path))

    assert entries(feed) == []
    assert feed.findtext(f"{ATOM}updated") == "1970-01-01T00:00:00Z"
