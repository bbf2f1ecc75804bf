"""The study of timing against somebody who does the block: an event by event walk through what the page says.

The walk knows the formats only as a viewer does (do this set, rest, go on until the time is up) and shares
no code with the study but the constants that are assumptions.
"""

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model import Block
from sitegen.study.timing import (
    BREATH_SECONDS,
    METRE_SECONDS,
    REST_BETWEEN_SETS,
    SPLIT_PAUSE_SECONDS,
    STEP_SECONDS,
    block_time,
    item_sets,
)
from tests.draws import draws
from tests.study.series_parts import block, details, exercise, forms

SERIES, LIBRARY = details(), forms(exercise("row"))
REP_SECONDS = {"": 3, " @3-1-1-0": 5, " @2-0-x-0": 2.5}

doses = st.one_of(
    st.integers(1, 40).map(str),
    st.integers(1, 20).map(lambda n: f"{n} each side"),
    st.integers(5, 90).map(lambda n: f"{n} s"),
    st.integers(5, 60).map(lambda n: f"{n} s each side"),
    st.integers(2, 60).map(lambda n: f"{n} steps"),
    st.integers(2, 40).map(lambda n: f"{n} m"),
    st.integers(2, 8).map(lambda n: f"{n} breaths"),
    st.tuples(st.integers(1, 9), st.integers(1, 9)).map(lambda pair: f"{pair[0]} + {pair[1]}"),
)
items = st.lists(st.tuples(doses, st.sampled_from(list(REP_SECONDS))).map("".join), min_size=1, max_size=4)
seconds = st.none() | st.integers(0, 90)


def one_set(written: str, end: str) -> list[tuple[str, float]]:
    """``work`` and ``rest`` of one set, side by side and part by part."""
    dose, _, tempo = written.partition(" @")
    amount = dose.removesuffix(" each side")
    sides = 2 if amount != dose else 1

    def each(span: object) -> float:
        return float(getattr(span, end))

    rep = REP_SECONDS[f" @{tempo}" if tempo else ""]
    if amount.endswith(" s"):
        side = [("work", float(amount[:-2]))]
    elif amount.endswith(" steps"):
        side = [("work", int(amount[:-6]) * each(STEP_SECONDS))]
    elif amount.endswith(" m"):
        side = [("work", int(amount[:-2]) * each(METRE_SECONDS))]
    elif amount.endswith(" breaths"):
        side = [("work", int(amount[:-8]) * each(BREATH_SECONDS))]
    else:
        side = []
        for part in amount.split(" + "):
            side += [("rest", each(SPLIT_PAUSE_SECONDS)), ("work", int(part) * rep)]
        side = side[1:]
    return side if sides == 1 else [*side, ("rest", 10.0), *side]


def events(
    done: Block, written: list[str], gap: float, break_: float, end: str
) -> Iterator[tuple[int, str, float]]:
    """Item, ``work`` or ``rest``, and seconds, in the order in which they come; rounds without end."""
    if done.format == "straight sets":
        for index, text in enumerate(written):
            if index:
                yield index, "rest", gap
            for number in range(done.sets.low):
                if number:
                    yield index, "rest", break_
                yield from ((index, kind, long) for kind, long in one_set(text, end))
        return
    number = 0
    while done.format == "as many rounds as possible" or number < done.sets.low:
        for index, text in enumerate(written):
            if index or number:
                yield index, "rest", gap if index else break_
            yield from ((index, kind, long) for kind, long in one_set(text, end))
        number += 1
        yield len(written), "round", 0.0


def paused(kind: str, gap: int | None, rest: int | None, format: str) -> tuple[float, float]:
    """Pauses between exercises and between sets, with what is assumed where nothing is written."""
    between = 10.0 if gap is None else float(gap)
    if rest is not None:
        return between, float(rest)
    if format == "as many rounds as possible" or kind not in REST_BETWEEN_SETS:
        return between, between
    return between, float(REST_BETWEEN_SETS[kind].low)


@draws(150, thorough=300)
@given(
    st.sampled_from(["straight sets", "circuit"]),
    st.sampled_from(["strength", "conditioning", "mobility"]),
    items,
    st.integers(1, 4),
    seconds,
    seconds,
)
def test_blocks_with_counted_sets(
    format: str, kind: str, written: list[str], sets: int, gap: int | None, rest: int | None
) -> None:
    done = block(
        format, *(f"row {one}" for one in written), kind=kind, sets=str(sets),
        gap=None if gap is None else f"{gap} s", rest=None if rest is None else f"{rest} s",
    )  # fmt: skip
    time = block_time(SERIES, LIBRARY, done)
    for end, estimate in (("low", time.short), ("high", time.long)):
        work, rests = [0.0] * len(written), 0.0
        for index, what, long in events(done, written, *paused(kind, gap, rest, format), end):
            if what == "work":
                work[index] += long
            else:
                rests += long
        assert list(estimate.work) == pytest.approx(work)
        assert estimate.rest == pytest.approx(rests)


@draws(150, thorough=300)
@given(items, st.integers(1, 15), seconds, seconds)
def test_rounds_until_the_time_is_up(
    written: list[str], minutes: int, gap: int | None, rest: int | None
) -> None:
    """Whole rounds that are finished when the clock stops, with every rest that the page prints."""
    done = block(
        "as many rounds as possible", *(f"row {one}" for one in written), time=f"{minutes} min",
        gap=None if gap is None else f"{gap} s", rest=None if rest is None else f"{rest} s",
    )  # fmt: skip
    counted = {}
    for end in ("low", "high"):
        clock, rounds = 0.0, 0
        for _, what, long in events(done, written, *paused("", gap, rest, done.format), end):
            clock += long
            if clock > minutes * 60 + 1e-9:
                break
            rounds += what == "round"
        counted[end] = rounds
    for span in item_sets(SERIES, LIBRARY, done):
        # slow hands make fewer rounds
        assert (span.low, span.high) == (counted["high"], counted["low"])


def test_a_rest_between_rounds_is_one_of_the_page() -> None:
    """20 repetitions of 3 s and 60 s of rest: four rounds in eight minutes, not eight."""
    done = block("as many rounds as possible", "row 20", time="8 min", gap="none", rest="60 s")

    assert {(span.low, span.high) for span in item_sets(SERIES, LIBRARY, done)} == {(4, 4)}
