"""Published episodes against their captions: warnings for what is not as said, and no others.

That every episode of the demo agrees with its captions is seen by the checks (`tests/checks/test_demo.py`).
"""

from dataclasses import replace

import pytest

from sitegen.drafting import compare_recording, read_transcript
from sitegen.model import Episode, Series
from sitegen.notation import Dose
from sitegen.reading.captions.cues import Captions
from tests.conftest import DEMO


@pytest.fixture(scope="module")
def episode(demo_series: Series) -> Episode:
    return next(e for e in demo_series.episodes if e.slug == "cast-off")


@pytest.fixture(scope="module")
def captions(episode: Episode) -> Captions:
    return read_transcript((DEMO / (episode.captions or "")).read_bytes(), "01.vtt")


def with_item(episode: Episode, block: int, item: int, **changes: object) -> Episode:
    """The episode with one item changed."""
    items = list(episode.blocks[block].items)
    items[item] = replace(items[item], **changes)
    blocks = list(episode.blocks)
    blocks[block] = replace(blocks[block], items=tuple(items))
    return replace(episode, blocks=tuple(blocks))


def test_an_episode_that_agrees_with_its_captions_gives_no_warning(
    episode: Episode, captions: Captions, demo_series: Series
) -> None:
    assert compare_recording(episode, captions, demo_series) == []


def test_a_chapter_more_than_ten_seconds_off(
    episode: Episode, captions: Captions, demo_series: Series
) -> None:
    true = episode.blocks[2].items[1].at or 0
    assert compare_recording(with_item(episode, 2, 1, at=true + 9), captions, demo_series) == []
    (problem,) = compare_recording(with_item(episode, 2, 1, at=true + 22), captions, demo_series)
    assert (problem.severity, problem.check) == ("warning", "chapter-off")
    assert problem.message == "'towel-row' is marked at 4:20, but said to be shown at 3:50"
    assert problem.location == episode.location.at("blocks", 2, "items", 1)


def test_a_dose_that_is_said_otherwise(episode: Episode, captions: Captions, demo_series: Series) -> None:
    (problem,) = compare_recording(with_item(episode, 2, 1, dose=Dose.parse("12")), captions, demo_series)
    assert (problem.severity, problem.check) == ("warning", "dose-said")
    assert problem.message.startswith("'towel-row' has the dose 12, but 8 is said at ")


def test_captions_of_another_episode_are_no_reason_to_warn(episode: Episode, demo_series: Series) -> None:
    other = read_transcript((DEMO / "captions" / "08.vtt").read_bytes(), "08.vtt")
    assert compare_recording(episode, other, demo_series) == []
