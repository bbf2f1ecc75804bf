"""The demo's choices for its needs against those of a professional, and what must hold of every choice.

The table in ``data/choices.yaml`` has the form that somebody with a need is given in place of an exercise,
with the reason and the source. Beside it stand promises that hold for every exercise, need and session.
"""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

from sitegen.model import Block, Item, Series
from sitegen.pages.site import Site
from sitegen.pages.theme import Theme
from sitegen.pages.version_words import VersionWords
from sitegen.study.version import Version, has_nothing_to_load
from tests.conftest import ROOT
from tests.spaces import spaced

ROWS: list[dict[str, Any]] = yaml.load(
    (Path(__file__).parent / "data" / "choices.yaml").read_text(),
    Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader),
)


class Choice(NamedTuple):
    """What an item becomes for a need."""

    session: int
    need: str
    block: Block
    item: Item
    version: Version


@pytest.fixture(scope="module")
def site(demo_series: Series) -> Site:
    return Site(demo_series, {}, Theme(ROOT / "themes/tidewater", "en"), "")


@pytest.fixture(scope="module")
def choices(site: Site) -> list[Choice]:
    return list(_choices(site))


def _choices(site: Site) -> Iterator[Choice]:
    for need in site.details.needs:
        for episode in site.series.episodes:
            versions = site.suitability.session(episode, [need])
            for block, ones in zip(episode.blocks, versions, strict=True):
                for item, one in zip(block.items, ones, strict=True):
                    if one is not None:
                        yield Choice(episode.number, need, block, item, one)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['exercise']} {row['need']}")
def test_a_need_gets_what_a_professional_gives(row: dict[str, Any], choices: list[Choice]) -> None:
    given = {
        one.version.form.key.variant
        for one in choices
        if (one.item.exercise, one.need) == (row["exercise"], row["need"])
        and row.get("session", one.session) == one.session
    }

    assert given == {row["form"]}, row["why"]


def test_every_row_has_a_reason_and_a_source() -> None:
    assert all(row["why"] and row["source"] for row in ROWS)
    assert len({(row["exercise"], row["need"], row.get("session")) for row in ROWS}) == len(ROWS)


def test_what_a_need_allows_at_most_never_stands_as_a_load(site: Site, choices: list[Choice]) -> None:
    words = VersionWords(site)
    for one in choices:
        if one.version.most_kg is not None and "light" in one.version.limited:
            assert "to begin with" in words.load(one.version), one


def test_no_load_is_handed_to_who_must_not_strain_where_the_video_has_none(choices: list[Choice]) -> None:
    added = {
        (one.item.exercise, one.version.form.name)
        for one in choices
        if one.need == "no-straining" and one.version.near.load_added and one.item.exercise != "pike-push-up"
    }

    assert added == set()


def test_nothing_that_is_held_has_a_tempo_of_lifting_or_repetitions_in_reserve(choices: list[Choice]) -> None:
    for one in choices:
        version = one.version
        if version.steps and version.form.held:
            assert version.tempo == version.form.own_tempo or version.tempo is None, one
            assert version.effort is None or (version.effort.scale, version.effort.high <= 6) == ("rpe", True)


def test_an_explosive_lift_is_never_handed_on(choices: list[Choice]) -> None:
    changed = [one for one in choices if one.version.steps and one.version.tempo is not None]

    assert [one for one in changed if one.version.tempo and one.version.tempo.lifting is None] == []


def test_a_door_is_only_spoken_of_where_one_is_used(choices: list[Choice]) -> None:
    door = re.compile(r"\bdoor\b", re.I)
    for one in choices:
        form = one.version.form
        if "door" not in form.kit:
            assert not any(door.search(caution.text) for caution in form.cautions), form.key


def test_the_same_in_both_hands_for_unsure_balance(choices: list[Choice]) -> None:
    given = [
        one
        for one in choices
        if one.need == "steady-feet" and one.item.exercise == "carrier-deadlift" and one.version.load
    ]

    assert [{str(part.quantity) for part in one.version.load.parts} for one in given if one.version.load] == [
        {"3 l"}
    ] * len(given)
    assert given


def test_empty_hands_that_move_freely_have_no_effort_of_a_loaded_set(choices: list[Choice]) -> None:
    told = {
        (one.item.exercise, one.need): one.version.effort
        for one in choices
        if one.need in ("weak-grip", "wheelchair", "easy-wrists")
        and one.item.exercise in ("tin-press", "towel-pulldown", "bent-over-row", "calf-raise", "towel-wring")
        and has_nothing_to_load(one.version.form)
    }

    assert len(told) > 4
    assert set(told.values()) == {None}


def test_a_set_in_parts_becomes_one_where_it_comes_too_near_to_the_end(
    site: Site, choices: list[Choice]
) -> None:
    words = VersionWords(site)
    told = {
        one.need: spaced(words.dose(one.block, one.version))
        for one in choices
        if one.session == 7 and one.item.exercise == "counter-push-up"
    }

    assert [told[need] for need in ("no-jumping", "steady-feet", "thin-bones")] == [
        "8 + 5 reps",
        "8 reps",
        "7 reps",
    ]
