"""Clock times mean one thing, whichever YAML a file is read as.

YAML 1.1 (yaml.org/type/int.html, 2005) reads ``190:20:30`` and ``1:30`` in base 60; YAML 1.2.2
(section 10.3.2, core schema) reads both as text. ``0:40`` and ``08:05`` are text in both, and so
is anything quoted.
"""

import pytest
import yaml

from sitegen.reading.schemas.report import Reading
from sitegen.reading.schemas.shared_scalars import CLOCK, NAME
from sitegen.reading.source import compose

CASES = {
    # as written: (what YAML 1.1 makes of it, seconds here)
    "1:30": (90, 90),
    "2:05": (125, 125),
    "0:40": ("0:40", 40),
    "'1:30'": ("1:30", 90),
    '"1:30"': ("1:30", 90),
    "08:05": ("08:05", 485),
    "1:02:05": (3725, 3725),
    "59:59": (3599, 3599),
}


@pytest.mark.parametrize(("written", "expected"), CASES.items(), ids=CASES)
def test_a_time_is_read_the_same_quoted_or_not(written: str, expected: tuple[object, int]) -> None:
    as_yaml_11, seconds = expected
    # PyYAML implements YAML 1.1: the outside reading that this reader must not depend on.
    assert yaml.safe_load(written) == as_yaml_11
    reading = Reading("x.yaml")
    assert CLOCK.read(compose(written.encode(), "x.yaml"), reading, ()) == seconds
    assert reading.problems == []


def test_the_seconds_of_another_program_are_not_taken_for_a_time() -> None:
    """A program that saves 2:05 as YAML 1.1 writes 125: asked about, not guessed."""
    reading = Reading("x.yaml")
    CLOCK.read(compose(b"125", "x.yaml"), reading, ())
    assert [p.advice for p in reading.problems] == ["if you mean 125 seconds, write 2:05"]


@pytest.mark.parametrize("word", ["no", "yes", "on", "off", "null", "~", "1e3", "0o14", "012"])
def test_words_that_yaml_11_reads_as_something_else_stay_words(word: str) -> None:
    reading = Reading("x.yaml")
    assert NAME.read(compose(f"'{word}'".encode(), "x.yaml"), reading, ()) == word
    if word not in ("null", "~"):  # in a record these mean: left empty
        assert NAME.read(compose(word.encode(), "x.yaml"), reading, ()) == word
