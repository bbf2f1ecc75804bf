"""Chapters from the times of blocks and items, and the list of times that video hosts accept."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model import Block, Episode, Item, Video, VideoFile
from sitegen.study.chapters import FEWEST, OPEN_END, SHORTEST, chapters, entry_list
from tests.study.series_parts import HERE


def block(at, *shown, turn=None):
    items = tuple(Item(exercise=f"exercise-{n}", at=time) for n, time in enumerate(shown))
    return Block(
        name=f"block at {at}",
        kind="strength",
        format="circuit",
        at=at,
        your_turn=turn,
        items=items,
        location=HERE,
    )


def episode(*blocks, length=None):
    video = Video(files=(VideoFile(file="media/x.webm"),), length=length) if length is not None else None
    return Episode(slug="x", number=1, title="X", blocks=blocks, video=video, location=HERE)


def spans(found):
    return [(one.block, one.start, one.end) for one in found]


# blocks, length -> (block, start, end); block None is what comes before the first
CHAPTERS = {
    "the first block at 0": ([block(0), block(60)], 100, [(0, 0, 60), (1, 60, 100)]),
    "an opening before it": ([block(22), block(60)], 100, [(None, 0, 22), (0, 22, 60), (1, 60, 100)]),
    "one block": ([block(0)], 100, [(0, 0, 100)]),
    "two blocks at one time: the second counts": ([block(0), block(0)], 50, [(1, 0, 50)]),
    "a block past the end": ([block(0), block(90)], 90, [(0, 0, 90)]),
    "length not known": ([block(0), block(60)], None, [(0, 0, 60), (1, 60, 60 + OPEN_END)]),
}


@pytest.mark.parametrize(("blocks", "length", "expected"), CHAPTERS.values(), ids=CHAPTERS)
def test_chapters_follow_each_other_from_the_start_to_the_end_of_the_video(blocks, length, expected):
    assert spans(chapters(episode(*blocks, length=length))) == expected


# times of the items, your turn -> (item, start, end), in a block from 10 to 100
PARTS = {
    "until the next item, the last until the block's end": ([10, 40], None, [(0, 10, 40), (1, 40, 100)]),
    "the last until your turn": ([20, 40], 70, [(0, 20, 40), (1, 40, 70)]),
    "an item without a time is in none": ([20, None, 40], None, [(0, 20, 40), (2, 40, 100)]),
    "shown together": ([20, 20, 50], None, [(0, 20, 50), (1, 20, 50), (2, 50, 100)]),
    "none has a time": ([None], None, []),
}


@pytest.mark.parametrize(("times", "turn", "expected"), PARTS.values(), ids=PARTS)
def test_items_are_parts_of_their_block(times, turn, expected):
    _, found, _ = chapters(episode(block(10, *times, turn=turn), block(100), length=200))

    assert [(part.item, part.start, part.end) for part in found.parts] == expected


# blocks (their start, times of items), length -> start and blocks of each entry
ENTRIES = {
    "nothing to repair": ([(0,), (30,), (60,)], 90, [(0, [0]), (30, [1]), (60, [2])]),
    "the opening is the first entry": ([(10,), (30,)], 90, [(0, [None]), (10, [0]), (30, [1])]),
    "a short opening joins the first block": (
        [(9,), (30,), (60,)],
        90,
        [(0, [None, 0]), (30, [1]), (60, [2])],
    ),
    "ten seconds are enough": ([(0,), (30,), (40,)], 50, [(0, [0]), (30, [1]), (40, [2])]),
    "a short block joins the one before": (
        [(0,), (30,), (39,), (60,)],
        90,
        [(0, [0, 1]), (39, [2]), (60, [3])],
    ),
    "a short last block joins the one before": (
        [(0,), (30,), (60,), (85,)],
        90,
        [(0, [0]), (30, [1]), (60, [2, 3])],
    ),
    "several short ones in a row": ([(0,), (30,), (35,), (40,)], 90, [(0, [0, 1, 2]), (40, [3])]),
    "too few blocks: the items are listed too": (
        [(0, 5, 20, 50)],
        90,
        [(0, [0]), (20, [0]), (50, [0])],
    ),
    "an item too near to the end is left out": ([(0, 20, 40, 85)], 90, [(0, [0]), (20, [0]), (40, [0])]),
    "one entry, and nothing to add": ([(0,)], 90, [(0, [0])]),
}


@pytest.mark.parametrize(("blocks", "length", "expected"), ENTRIES.values(), ids=ENTRIES)
def test_list_of_times_keeps_the_hosts_rules(blocks, length, expected):
    found = chapters(episode(*(block(*one) for one in blocks), length=length))

    listed = entry_list(found)

    assert [(entry.start, [one.block for one in entry.chapters]) for entry in listed.entries] == expected


def test_list_says_what_was_repaired():
    listed = entry_list(chapters(episode(block(4, 20, 40), length=90)))

    assert [(entry.start, len(entry.chapters)) for entry in listed.shared] == [(0, 2)]
    assert [part.start for part in listed.added] == [20, 40]
    assert listed.enough


def test_one_chapter_without_items_is_too_few():
    assert not entry_list(chapters(episode(block(0), length=90))).enough


def test_an_episode_without_a_length_has_a_list():
    assert [entry.start for entry in entry_list(chapters(episode(block(0), block(30)))).entries] == [0, 30]


@given(st.sets(st.integers(0, 300), min_size=1, max_size=12), st.integers(1, 200), st.data())
def test_every_list_starts_at_zero_ascends_and_has_no_short_entry(starts, rest, data):
    starts = sorted(starts)
    length = starts[-1] + rest
    times = data.draw(st.lists(st.integers(starts[0], length), max_size=6).map(sorted))
    blocks = [block(starts[0], *times), *(block(at) for at in starts[1:])]
    found = chapters(episode(*blocks, length=length))

    listed = entry_list(found)

    times = [entry.start for entry in listed.entries] + [length]
    assert times[0] == 0
    if len(times) > 2:
        assert min(later - earlier for earlier, later in pairwise(times)) >= SHORTEST
    assert {one for entry in listed.entries for one in entry.chapters} == {*found, *listed.added}
    assert listed.enough == (len(listed.entries) >= FEWEST)
