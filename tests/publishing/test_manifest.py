"""The record of a publication: it comes back as it was, and damage is noticed."""

import gzip
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.publishing.publication_record import DamagedRecord, Publication, PublishedFile, number_of

RECORD = Publication(
    number=12,
    at="2026-09-14T12:00:00+00:00",
    finished=True,
    title="2 files added",
    again=10,
    files={
        "index.html": PublishedFile(digest="0f" * 16, size=120, form="gzip", tag="e1"),
        "media/a.0123456789.webm": PublishedFile(digest="a0" * 16, size=9000),
    },
)


def test_a_record_comes_back_as_it_was() -> None:
    assert Publication.load(RECORD.dump()) == RECORD


def test_the_same_record_has_the_same_bytes() -> None:
    assert RECORD.dump() == RECORD.dump()


def test_records_are_numbered_files() -> None:
    assert RECORD.address == ".published/publications/000012.json.gz"
    assert number_of(RECORD.address) == 12
    assert number_of(".published/publications/notes.txt") is None
    assert number_of("publications/000012.json.gz") is None
    assert number_of(f".published/publications/{'9' * 5000}.json.gz") is None


@given(st.integers(0, len(RECORD.dump()) - 1), st.integers(1, 255))
def test_a_changed_byte_never_passes_for_another_record(at: int, change: int) -> None:
    data = bytearray(RECORD.dump())
    data[at] ^= change
    try:
        assert Publication.load(bytes(data)) == RECORD  # a byte of the gzip head that means nothing
    except DamagedRecord:
        pass


@given(st.integers(0, len(RECORD.dump()) - 1))
def test_a_record_cut_short_is_damaged(length: int) -> None:
    with pytest.raises(DamagedRecord):
        Publication.load(RECORD.dump()[:length])


FORGED = {
    "address that leaves the target": {"files": {"../../etc/passwd": ["0f" * 16, 1, "", ""]}},
    "address with an empty part": {"files": {"a//b": ["0f" * 16, 1, "", ""]}},
    "fingerprint that is a path": {"files": {"a": ["../" * 10 + "xx", 1, "", ""]}},
    "unknown form": {"files": {"a": ["0f" * 16, 1, "/../x", ""]}},
    "no files": {"files": None},
    "number that is none": {"number": float("inf")},
    "number below 0": {"number": -3},
    "size that is none": {"files": {"a": ["0f" * 16, float("inf"), "", ""]}},
    "number in words": {"again": "ten"},
    "another format": {"format": 2},
}


@pytest.mark.parametrize("change", FORGED.values(), ids=FORGED.keys())
def test_a_forged_record_is_damaged(change: dict[str, object]) -> None:
    from sitegen.publishing.publication_record import _seal

    body = json.loads(gzip.decompress(RECORD.dump())) | change
    del body["seal"]
    data = gzip.compress(json.dumps({"seal": _seal(body), **body}).encode())
    with pytest.raises(DamagedRecord):
        Publication.load(data)


def test_a_record_of_a_million_brackets_is_damaged() -> None:
    with pytest.raises(DamagedRecord):
        Publication.load(gzip.compress(b"[" * 1_000_000))


def test_a_record_that_unpacks_without_end_is_damaged() -> None:
    with pytest.raises(DamagedRecord):
        Publication.load(gzip.compress(b" " * ((1 << 27) + 1), compresslevel=1))


def test_nothing_in_a_record_names_a_person() -> None:
    body = json.loads(gzip.decompress(RECORD.dump()))
    assert set(body) == {"seal", "format", "number", "at", "finished", "title", "again", "files"}
