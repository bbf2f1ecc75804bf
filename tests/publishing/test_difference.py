"""What a publication would change, from what is wanted, recorded and found."""

from collections.abc import Mapping

import pytest

from sitegen.publishing.difference import TargetState, compare, dropped_addresses, to_read, worth_a_look
from sitegen.publishing.publication_record import RECORDS, Publication, PublishedFile
from sitegen.publishing.publications import Publications
from sitegen.publishing.store import StoredFile

PAGE, STYLE = "index.html", "assets/site.0123456789.css"


def entry(letter: str, tag: str = "", form: str = "") -> PublishedFile:
    return PublishedFile(digest=letter * 32, size=10, tag=tag, form=form)


def publication(number: int, files: Mapping[str, PublishedFile], *, finished: bool = True) -> Publication:
    return Publication(number=number, at="", finished=finished, files=files)


def history(*publications: Publication) -> Publications:
    return Publications(
        finished=tuple(p for p in publications if p.finished),
        unfinished=tuple(p for p in publications if not p.finished),
    )


OUT = history(publication(1, {PAGE: entry("a", tag="t1")}))

CASES = {
    # id: (wanted, history, tags found, digests read, expected fields)
    "first publication": ({PAGE: entry("a")}, history(), {}, {}, {"added": (PAGE,)}),
    "as it is": ({PAGE: entry("a")}, OUT, {PAGE: "t1"}, {}, {"unchanged": 1}),
    "changed": ({PAGE: entry("b")}, OUT, {PAGE: "t1"}, {}, {"changed": (PAGE,)}),
    "another form": ({PAGE: entry("a", form="gzip")}, OUT, {PAGE: "t1"}, {}, {"changed": (PAGE,)}),
    "gone from the target": ({PAGE: entry("a")}, OUT, {}, {}, {"mended": (PAGE,)}),
    "gone from the content": ({}, OUT, {PAGE: "t1"}, {}, {"removed": (PAGE,)}),
    "gone from both": ({}, OUT, {}, {}, {}),
    "touched, the same bytes": ({PAGE: entry("a")}, OUT, {PAGE: "t2"}, {PAGE: "a" * 32}, {"unchanged": 1}),
    "changed by hand": (
        {PAGE: entry("a")}, OUT, {PAGE: "t2"}, {PAGE: "c" * 32}, {"mended": (PAGE,), "by_hand": (PAGE,)},
    ),
    "changed by hand and in the content": (
        {PAGE: entry("b")}, OUT, {PAGE: "t2"}, {PAGE: "c" * 32}, {"changed": (PAGE,), "by_hand": (PAGE,)},
    ),
    "changed by hand to what is wanted": (
        {PAGE: entry("b")}, OUT, {PAGE: "t2"}, {PAGE: "b" * 32}, {"unchanged": 1},
    ),
    "changed by hand and removed": (
        {}, OUT, {PAGE: "t2"}, {PAGE: "c" * 32}, {"removed": (PAGE,), "by_hand": (PAGE,)},
    ),
    "there before the first publication": (
        {PAGE: entry("a")}, history(), {PAGE: "t9"}, {PAGE: "c" * 32},
        {"changed": (PAGE,), "by_hand": (PAGE,)},
    ),
    "records lost, the same bytes": (
        {PAGE: entry("a")}, history(), {PAGE: "t9"}, {PAGE: "a" * 32}, {"unchanged": 1},
    ),
    "records lost, nothing is removed": ({}, history(), {PAGE: "t9"}, {}, {}),
    "sent by a publication that was cut off": (
        {PAGE: entry("b")},
        history(*OUT.finished, publication(2, {PAGE: entry("b")}, finished=False)),
        {PAGE: "t2"}, {PAGE: "b" * 32}, {"unchanged": 1},
    ),
    "half way between two that were cut off": (
        {PAGE: entry("d")},
        history(*OUT.finished, publication(2, {PAGE: entry("b")}, finished=False)),
        {PAGE: "t2"}, {PAGE: "b" * 32}, {"changed": (PAGE,)},
    ),
    "put there by one that was cut off, not wanted now": (
        {}, history(publication(1, {"new.html": entry("b")}, finished=False)),
        {"new.html": "t2"}, {"new.html": "b" * 32}, {"removed": ("new.html",)},
    ),
    "a file of somebody else's": ({}, history(), {"notes.txt": "t"}, {}, {}),
    "an old style that an earlier publication needs": (
        {}, history(publication(1, {STYLE: entry("a", tag="t1")})), {STYLE: "t1"}, {}, {},
    ),
}  # fmt: skip


@pytest.mark.parametrize(("wanted", "known", "tags", "digests", "expected"), CASES.values(), ids=CASES.keys())
def test_difference(
    wanted: dict[str, PublishedFile],
    known: Publications,
    tags: dict[str, str],
    digests: dict[str, str],
    expected: dict[str, object],
) -> None:
    found = {address: StoredFile(10, tag) for address, tag in tags.items()}
    difference = compare(wanted, known, TargetState(found=found, digests=digests))
    nothing = {"added": (), "changed": (), "mended": (), "removed": (), "by_hand": (), "unchanged": 0}
    told = {name: getattr(difference, name) for name in nothing}
    assert told == nothing | expected


@pytest.mark.parametrize(
    ("wanted", "known", "tags", "digests"), [c[:4] for c in CASES.values()], ids=CASES.keys()
)
def test_only_files_with_an_unknown_tag_are_read(
    wanted: dict[str, PublishedFile], known: Publications, tags: dict[str, str], digests: dict[str, str]
) -> None:
    found = {address: StoredFile(10, tag) for address, tag in tags.items()}
    assert to_read(wanted, known, found) == sorted(digests)


def test_what_was_not_looked_at_is_as_recorded() -> None:
    known = history(publication(1, {PAGE: entry("a", tag="t1"), "other.html": entry("b", tag="t2")}))
    wanted = {PAGE: entry("c"), "other.html": entry("b")}
    looked_at = worth_a_look(wanted, known)
    assert looked_at == {PAGE}
    there = TargetState(found={PAGE: StoredFile(10, "t1")}, looked_at=looked_at, digests={})
    difference = compare(wanted, known, there)
    assert (difference.changed, difference.mended, difference.unchanged) == ((PAGE,), (), 1)


def test_bytes_are_those_of_what_is_sent() -> None:
    wanted = {PAGE: entry("a"), "new.html": entry("b"), "more.html": entry("c")}
    known = history(publication(1, {PAGE: entry("a", tag="t1")}))
    difference = compare(wanted, known, TargetState(found={PAGE: StoredFile(10, "t1")}, digests={}))
    assert difference.bytes == 20


def test_addresses_named_by_their_bytes_are_not_dropped() -> None:
    known = history(
        publication(1, {PAGE: entry("a"), STYLE: entry("b"), "media/a.0123456789.webm": entry("c")})
    )
    assert dropped_addresses([], known) == [PAGE]


@pytest.mark.parametrize(
    ("publications", "numbers"),
    [
        pytest.param([publication(1, {})], [], id="only one"),
        pytest.param([publication(1, {}), publication(2, {})], [1], id="two"),
        pytest.param([publication(1, {}), publication(2, {}, finished=False)], [1], id="the second cut off"),
        pytest.param(
            [publication(1, {}), publication(2, {}), publication(3, {}, finished=False)],
            [1, 2],
            id="the third cut off",
        ),
        pytest.param(
            [publication(1, {}), publication(2, {}, finished=False), publication(3, {})],
            [1],
            id="one cut off before the last",
        ),
    ],
)
def test_the_last_whole_publication_can_be_brought_back(
    publications: list[Publication], numbers: list[int]
) -> None:
    assert [one.number for one in history(*publications).earlier] == numbers


def test_a_record_that_was_cut_off_while_it_was_written_counts_as_one_cut_off() -> None:
    """Else the last whole publication would be skipped, just when it is wanted."""
    whole = (publication(1, {}), publication(2, {}))
    earlier, later = (f"{RECORDS}{number:06d}.json.gz" for number in (1, 3))

    assert [one.number for one in Publications(whole, (), (later,)).earlier] == [1, 2]
    assert [one.number for one in Publications(whole, (), (earlier,)).earlier] == [1]
