"""Whatever is read from others gives a value or a problem: a sample of ``python -m tests.bench fuzz``."""

import pytest

from sitegen.reading.files import read_file
from tests.demo_copy import copy_demo
from tests.fuzzing import Readers, read_grown, try_one

SAMPLE = {
    "content": 60,
    "captions": 60,
    "record": 40,
    "lease": 40,
    "manifest": 40,
    "log": 20,
    "draft": 2,
    "plan": 2,
}


@pytest.fixture(scope="module")
def readers(tmp_path_factory: pytest.TempPathFactory) -> Readers:
    root = tmp_path_factory.mktemp("fuzz")
    return Readers(root, copy_demo(root / "demo", episodes=1))


@pytest.mark.parametrize("kind", SAMPLE)
def test_broken_files_break_nothing_off(readers: Readers, kind: str) -> None:
    found = [try_one(readers, kind, seed) for seed in range(SAMPLE[kind])]
    assert [finding for finding in found if finding] == []


@pytest.mark.parametrize(
    ("kind", "seed"),
    [("manifest", 2824), ("content", 4828), ("content", 5306), ("plan", 201718)],
)
def test_what_broke_a_reader_once_does_not_again(readers: Readers, kind: str, seed: int) -> None:
    assert try_one(readers, kind, seed) is None


@pytest.mark.parametrize(
    ("hole", "piece"),
    [
        ("a page", "<a "),
        ("a page", "<a:"),
        ("a page", "[\n"),
        ("a page", "![["),
        ("a dose", "each"),
        ("a dose", "9"),
        ("a load", "20 kg"),
        ("a key", "ab "),
        ("lines", "k: v\n"),
        ("a record", " "),
        ("a cue", "{\\"),
        ("a cue", "<a "),
        ("talk", "8 6 "),
        ("talk", "plus "),
        ("talk", "½"),
        ("a transcript", "["),
        ("JSON", "["),
    ],
)
def test_reading_grows_with_the_text_not_with_its_square(readers: Readers, hole: str, piece: str) -> None:
    """A hundred kilobytes of the same take a fraction of the time allowed; by the square, minutes."""
    assert read_grown(readers, hole, piece, 100_000) is None


def test_numbers_without_end_are_drafted_in_time_that_grows_with_them(readers: Readers) -> None:
    """Every number of a block may be its dose, and each is compared with the same said elsewhere. Ten
    kilobytes took half a minute when each pair was looked at, so five would take more than the time
    allowed; now they take less than a second, which leaves room for a slow machine.
    """
    assert read_grown(readers, "a transcript", "8-12", 5_000) is None


@pytest.mark.parametrize("kind", ["episodes", "captions"])
def test_a_number_without_end_is_a_problem(kind: str) -> None:
    """Python reads none of more than 4,300 digits."""
    digits = b"9" * 5000
    files = {
        "episodes": b"title: One\nnumber: %s\nblocks: []\n" % digits,
        "captions": b"WEBVTT\n\n%s:00:00.000 --> %s:00:01.000\nText\n" % (digits, digits),
    }
    assert read_file(kind, f"{kind}/01.yaml", files[kind]).problems
