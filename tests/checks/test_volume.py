"""Warnings about weekly sets, push against pull, and jumps in volume."""

from pathlib import Path

import pytest

from tests.sessions import STARTER_SCHEDULE, SessionFolder

PRESS = "name: Press\npattern: push horizontal\nmuscles: {prime: [chest], assist: [triceps]}\n"


def series_with(tmp_path: Path, bounds: str) -> SessionFolder:
    """Two sessions a week, Monday and Thursday from 4 January 2027."""
    folder = SessionFolder(tmp_path, schedule=f"bounds: {{{bounds}}}\n{STARTER_SCHEDULE}")
    folder.write("exercises/press.yaml", PRESS)
    return folder


def bounds_of(series: SessionFolder) -> str:
    return f"series.yaml:{series.line('series.yaml', 'bounds:')}"


def test_weeks_under_the_bounds_are_named_together(tmp_path: Path) -> None:
    series = series_with(tmp_path, "sets_per_week: 5-12")
    for number in (1, 2, 3, 4):
        series.session(number, "backpack-row, dose: 8", sets="2" if number < 4 else "3-4")

    assert series.said("volume-low") == [
        f"{bounds_of(series)}:25: lats has fewer strength sets than the 5-12 the series sets for a "
        "week: 4 in week 1",
        f"{bounds_of(series)}:25: upper back has fewer strength sets than the 5-12 the series sets "
        "for a week: 4 in week 1",
    ]
    assert (
        series.advice("volume-low")[0] == "add a set, choose another exercise, or change the bounds of lats"
    )


def test_weeks_over_the_bounds(tmp_path: Path) -> None:
    series = series_with(tmp_path, "sets_per_week: 1-12, muscles: {lats: 2-5}")
    series.session(1, "backpack-row, dose: 8")
    series.session(2, "backpack-row, dose: 8")

    assert series.said("volume-high") == [
        f"{bounds_of(series)}:47: lats has more strength sets than the 2-5 the series sets for a "
        "week: 6 in week 1"
    ]


def test_rounds_of_conditioning_count_towards_no_bound(tmp_path: Path) -> None:
    series = series_with(tmp_path, "sets_per_week: 1-5")
    series.session(1, "backpack-row, dose: 8", sets="3")
    series.session(2, "backpack-row, dose: 8", sets="9", kind="conditioning")

    assert series.said("volume-low", "volume-high") == []


def test_a_muscle_that_is_only_in_conditioning_has_no_lower_bound(tmp_path: Path) -> None:
    series = series_with(tmp_path, "sets_per_week: 3-12")
    series.session(1, "jumping-jack, dose: 30 s", kind="conditioning")
    series.session(2, "backpack-row, dose: 8")

    assert series.said("volume-low") == []


def test_a_lower_bound_of_nothing(tmp_path: Path) -> None:
    series = series_with(tmp_path, "sets_per_week: 3-12, muscles: {lats: 0-12, upper back: 0-12}")
    for number in (1, 2, 3, 4):
        series.session(number, "backpack-row, dose: 8" if number < 3 else "chair-squat, dose: 8")

    assert [line for line in series.said("volume-low") if "lats" in line or "upper back" in line] == []


def test_push_above_pull_by_week(tmp_path: Path) -> None:
    series = series_with(tmp_path, "push_per_pull: 1.5")
    series.session(1, "backpack-row, dose: 8", "press, dose: 8")
    series.session(2, "press, dose: 8", sets="1")  # 4 to 3
    series.session(3, "backpack-row, dose: 8", sets="2")
    series.session(4, "press, dose: 8", sets="4")  # 4 to 2
    series.session(5, "press, dose: 8")  # 3 to none

    assert series.said("push-pull") == [
        f"{bounds_of(series)}:25: push to pull: 4 to 2 in week 2 and 3 to 0 in week 3, above the 1.5 "
        "to 1 the series sets"
    ]


def test_exactly_the_limit_is_no_jump_and_no_push(tmp_path: Path) -> None:
    series = series_with(tmp_path, "push_per_pull: 2, rise: 50 %")
    series.session(1, "backpack-row, dose: 8", sets="2")
    series.session(2, "press, dose: 8", sets="4")
    series.session(3, "backpack-row, dose: 12", sets="2")

    assert series.said("push-pull", "volume-rise") == []


def test_a_jump_in_volume_names_the_item(tmp_path: Path) -> None:
    series = series_with(tmp_path, "rise: 50 %")
    series.session(1, "chair-squat, dose: 8", "backpack-row, dose: 8")
    series.session(2, "chair-squat, dose: 8")
    series.session(3, "chair-squat, dose: 8", "backpack-row, dose: 13")

    assert series.said("volume-rise") == [
        "episodes/03-session-3.yaml:12:9: Backpack row rises by 62 % from episode 1, from 24 to 39 "
        "reps in all, "
        "more than the 50 % the series allows"
    ]


def test_a_jump_to_what_was_never_counted_is_none(tmp_path: Path) -> None:
    """Repetitions against seconds, another form, an open number: nothing to compare with."""
    series = series_with(tmp_path, "rise: 10 %")
    series.session(1, "chair-squat, dose: 5")
    series.session(2, "chair-squat, dose: 60 s")
    series.session(3, "backpack-row, dose: 5")
    series.session(4, "backpack-row, dose: 20, variant: seated-row")
    series.session(5, "backpack-row, dose: max")

    assert series.said("volume-rise") == []


def test_a_jump_is_silenced_in_the_file_it_is_in(tmp_path: Path) -> None:
    series = series_with(tmp_path, "rise: 50 %")
    series.session(1, "chair-squat, dose: 8")
    series.session(2, "chair-squat, dose: 20", head="silence: {volume-rise: A test day}")

    assert series.said("volume-rise") == []


@pytest.mark.parametrize("bounds", ["", "rise: 900 %"])
def test_without_limits_nothing_is_said(tmp_path: Path, bounds: str) -> None:
    series = series_with(tmp_path, bounds)
    series.session(1, "press, dose: 8", sets="20")
    series.session(2, "press, dose: 16", sets="20")

    assert series.said("volume-low", "volume-high", "push-pull", "volume-rise") == []


LOADS = {
    # sets of two sessions, bounds, and what is said of the second
    "ten per cent is the published limit": ("5 kg", "8", "5.5 kg", "8", "", None),
    "more than ten": ("5 kg", "8", "6 kg", "8", "", "by 20 % from episode 1, from 5.0 to 6.0 kg, more than the 2-10 % of ACSM 2009"),
    "twice": ("2 kg", "8", "2 x 2 kg", "8", "", "by 100 % from episode 1, from 2.0 to 4.0 kg, more than the 2-10 % of ACSM 2009"),
    "made up for by fewer repetitions": ("6 kg", "10", "8 kg", "8", "", None),
    "the series' own limit": ("5 kg", "8", "6 kg", "8", "load_rise: 20 %", None),
    "above the series' own limit": ("5 kg", "8", "7 kg", "8", "load_rise: 20 %", "by 40 % from episode 1, from 5.0 to 7.0 kg, more than the 20 % the series allows"),
    "a fall": ("6 kg", "8", "5 kg", "8", "", None),
}  # fmt: skip


@pytest.mark.parametrize(
    ("load", "dose", "next_load", "next_dose", "bounds", "told"), LOADS.values(), ids=LOADS
)
def test_a_load_that_jumps(
    tmp_path: Path, load: str, dose: str, next_load: str, next_dose: str, bounds: str, told: str | None
) -> None:
    series = series_with(tmp_path, bounds)
    series.edit("exercises/backpack-row.yaml", "kit: [backpack, sturdy-chair]", "kit: [backpack]")
    series.session(1, f"backpack-row, dose: {dose}, load: {load}")
    series.session(2, f"backpack-row, dose: {next_dose}, load: {next_load}")

    begin = "episodes/02-session-2.yaml:11:9: the load of Backpack row rises "
    end = ", and its repetitions do not make up for it"
    assert series.said("load-rise") == ([begin + told + end] if told else [])


def test_a_jump_in_volume_counts_the_load(tmp_path: Path) -> None:
    series = series_with(tmp_path, "rise: 50 %")
    series.session(1, "backpack-row, dose: 8, load: 6 kg")
    series.session(2, "backpack-row, dose: 10, load: 8 kg")

    # 144 to 240 kg x repetitions
    assert series.said("volume-rise", "load-rise") == [
        "episodes/02-session-2.yaml:11:9: Backpack row rises by 67 % from episode 1, from 24 to 30 reps in all "
        "and from 6.0 to 8.0 kg, more than the 50 % the series allows"
    ]


# --- standstill -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("doses", "told"),
    [
        (["8", "8", "8", "8"], True),
        (["8", "8", "8"], False),  # not often enough to tell
        (["8", "8", "8", "9"], False),
        (["10", "8", "9", "8"], True),
        (["max", "max", "max", "max"], False),  # grows by itself
        (["8, load: 6 kg", "8, load: 6 kg", "8, load: 6 kg", "6, load: 6.5 kg"], False),
        (["8, load: 6 kg", "8, load: 6 kg", "8, load: 6 kg", "8, load: 5 kg"], True),
    ],
)
def test_an_exercise_that_never_grows_is_told(tmp_path: Path, doses: list[str], told: bool) -> None:
    series = SessionFolder(tmp_path)
    for number, dose in enumerate(doses, start=1):
        file = series.session(number, f"backpack-row, dose: {dose}")
    expected = f"{file}:{series.line(file, 'backpack-row')}:"
    said = series.said("standstill")
    assert len(said) == told
    assert all(one.startswith(expected) and "never grows" in one for one in said)


def test_rounds_of_conditioning_need_not_grow(tmp_path: Path) -> None:
    series = SessionFolder(tmp_path)
    for number in range(1, 6):
        series.session(number, "jumping-jack, dose: 20", kind="conditioning")
    assert series.said("standstill") == []
