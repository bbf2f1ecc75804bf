"""Warnings about announced times."""

from pathlib import Path

import pytest

from sitegen.notation import Duration
from sitegen.reading.reader import read_content
from tests.sessions import SessionFolder

# Three sets of 30 s with 60 s between them are 210 s; with 600 s of video that is 13.5 minutes.
VIDEO = 'video: {host: harbour, id: a1, length: "10:00"}'
HOST = 'hosts: {harbour: {name: H, page: "https://v.example/{id}?{seconds}", player: "https://v.example/{id}?{seconds}"}}\n'


@pytest.fixture
def series(tmp_path: Path) -> SessionFolder:
    return SessionFolder(tmp_path, more=HOST)


@pytest.mark.parametrize("lasts", ["14 min", "10-14 min", "13-20 min", "14-15 min"])
def test_an_announcement_that_holds(series: SessionFolder, lasts: str) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=f"lasts: {lasts}\n{VIDEO}")

    assert series.said("session-time") == []


def test_longer_than_announced(series: SessionFolder) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=f"lasts: 10-13 min\n{VIDEO}")

    assert series.said("session-time") == [
        "episodes/01-session-1.yaml:3:8: the session takes 14 min, longer than the 10-13 min it announces"
    ]
    assert series.advice("session-time") == ["write lasts: 14 min, or take something out"]


def test_much_shorter_than_announced(series: SessionFolder) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=f"lasts: 20-25 min\n{VIDEO}")

    assert series.said("session-time") == [
        "episodes/01-session-1.yaml:3:8: the session takes 14 min, less than the 20-25 min it announces"
    ]


def test_nothing_is_said_where_nothing_is_announced_or_the_video_is_not_known(series: SessionFolder) -> None:
    series.session(1, "chair-squat, dose: 30 s", head=VIDEO)
    series.session(2, "chair-squat, dose: 30 s", head="lasts: 2 min")

    assert series.said("session-time") == []


def test_silenced_with_a_reason(series: SessionFolder) -> None:
    head = f"lasts: 10-13 min\n{VIDEO}\nsilence: {{session-time: Most people skip the last set}}"
    series.session(1, "chair-squat, dose: 30 s", head=head)

    assert series.said("session-time") == []


# --- work that does not fit its time -------------------------------------------------------------

EPISODE = """title: One
number: 1
{video}blocks:
  - name: Work
    kind: conditioning
    at: 0:10
    {block}
"""


def write(series: SessionFolder, block: str, *items: str, video: str = "") -> None:
    lines = "".join(f"\n      - {{exercise: {item}}}" for item in items)
    block = "\n    ".join(block.split("; "))
    series.write("episodes/01-one.yaml", EPISODE.format(video=video, block=f"{block}\n    items:{lines}"))


EVERY_MINUTE = "format: every minute on the minute; time: 4 min; your_turn: 0:20"
INTERVALS = "format: intervals; work: 20 s; sets: 4; your_turn: 0:20"
ROUNDS = "format: as many rounds as possible; time: 4 min; your_turn: 0:20"
UNFIT = {
    "a dose longer than its minute": (
        EVERY_MINUTE,
        ["chair-squat, dose: 40"],
        ["11:39: 40 of 'Chair squat' take 120 s, and there are 60 s"],
    ),
    "a dose that just fits its minute": (EVERY_MINUTE, ["chair-squat, dose: 20"], []),
    "only its long end does not fit": (EVERY_MINUTE, ["chair-squat, dose: 12-24"], []),
    "a dose longer than its interval": (
        INTERVALS,
        ["backpack-row, dose: 40 each side"],
        ["12:40: 40 each side of 'Backpack row' take 250 s, and there are 20 s"],
    ),
    "an interval without a dose": (INTERVALS, ["backpack-row"], []),
    "a round longer than the time for all": (
        ROUNDS,
        ["chair-squat, dose: 20", "backpack-row, dose: 40 each side"],
        ["8:11: one round of 'Work' takes 320 s, longer than the 4 min for all rounds"],
    ),
    "a round that just fits": (ROUNDS, ["chair-squat, dose: 80"], []),
    "a minute that never comes": (
        EVERY_MINUTE.replace("4 min", "1 min"),
        ["chair-squat, dose: 10", "jumping-jack, dose: 20 s"],
        ["12:9: 'Jumping jack' never gets its minute: 2 items take turns"],
    ),
}


@pytest.mark.parametrize(("block", "items", "said"), UNFIT.values(), ids=UNFIT)
def test_work_that_does_not_fit_its_time(
    series: SessionFolder, block: str, items: list[str], said: list[str]
) -> None:
    write(series, block, *items)

    assert series.said("dose-time", "no-turn") == [f"episodes/01-one.yaml:{one}" for one in said]


ALONG = "format: straight sets; sets: 5; rest: {between_sets: none}"


@pytest.mark.parametrize(
    ("length", "block", "said"),
    [
        # 5 x (20 x 3 + 10 + 20 x 3) = 650 s
        pytest.param("1:00", ALONG, ["takes 10:50, and has 0:50 of it"], id="a stretch of 50 s"),
        pytest.param("11:00", ALONG, [], id="as long as it takes"),
        pytest.param("10:06", ALONG, [], id="a tenth shorter is not told"),
        pytest.param("9:50", ALONG, ["takes 10:50, and has 9:40 of it"], id="more than a tenth"),
        pytest.param("1:00", f"{ALONG}; your_turn: 0:20", [], id="the viewer pauses"),
        pytest.param(
            "2:15",
            "format: intervals; work: 20 s; sets: 12; rest: {between_exercises: 10 s}",
            ["takes 5:50, and has 2:05 of it"],
            id="twelve rounds in two minutes",
        ),
    ],
)
def test_a_block_done_along_with_the_video_has_its_stretch(
    series: SessionFolder, length: str, block: str, said: list[str]
) -> None:
    video = f'video: {{host: harbour, id: a1, length: "{length}"}}\n'
    write(series, block, "backpack-row, dose: 20 each side", video=video)

    begin = "episodes/01-one.yaml:5:5: 'Work' is done along with the video, "
    assert series.said("along-time") == [begin + one for one in said]


def test_a_routine_is_told_once(series: SessionFolder) -> None:
    routine = "name: Minutes\nkind: conditioning\nformat: every minute on the minute\ntime: 2 min\nitems:\n"
    series.write("routines/minutes.yaml", routine + "  - {exercise: chair-squat, dose: 40}\n")
    for number in (1, 2):
        blocks = "blocks:\n  - {routine: minutes, at: 0:10, your_turn: 0:20}\n"
        series.write(
            f"episodes/0{number}-one-{number}.yaml", f"title: One {number}\nnumber: {number}\n{blocks}"
        )

    assert series.problems() == []
    assert series.said("dose-time") == [
        "routines/minutes.yaml:6:35: 40 of 'Chair squat' take 120 s, and there are 60 s"
    ]


def test_a_range_of_changeover_is_kept(series: SessionFolder) -> None:
    """10-30 s counts at both ends: 60 s, the change of sides, 60 s."""
    series.edit("series.yaml", "units: metric", "changeover: 10-30 s\nunits: metric")
    series.session(1, "backpack-row, dose: 20 each side", sets="1", head=f"lasts: 2 min\n{VIDEO}")

    assert "the session takes 12 min" in series.said("session-time")[0]
    details = read_content(series.root).series.details
    assert details.changeover == Duration(10, 30)
