"""The texts to paste: the description where the video is hosted, the announcement for an e-mail."""

from pathlib import Path

import pytest

from tests.pages.episode_folder import EPISODE, EpisodeFolder

DESCRIPTION = """\
My series, session 1: First steps

A short session to learn how the series works.

Time: {time}, setting up, video and your turns together

Fetch first:
- Sturdy chair (or a low table against a wall)
- Backpack with books (or a shopping bag with tins)

Times:
0:00 Welcome
0:20 Warm-up
1:30 Get warm
2:15 First pair

The session with every exercise, easier and harder versions, and a sheet to print:
https://series.example/episodes/first-steps/

This is general training advice, not medical advice. What your doctor or physiotherapist tells you comes \
first, and local rules apply.
"""

ANNOUNCEMENT = """\
Hello,

Session 1 of My series is ready: First steps.
A short session to learn how the series works.

Time: {time}, setting up, video and your turns together

Fetch first:
- Sturdy chair (or a low table against a wall)
- Backpack with books (or a shopping bag with tins)

What is in it:
- Warm-up: {warm_up}
- Get warm: Jumping jack
- First pair: Chair squat, Backpack row

Open it here:
https://series.example/episodes/first-steps/

Your name

This is general training advice, not medical advice. What your doctor or physiotherapist tells you comes \
first, and local rules apply.
"""


@pytest.fixture
def series(tmp_path: Path) -> EpisodeFolder:
    return EpisodeFolder(tmp_path)


def text(series: EpisodeFolder, name: str) -> str:
    return series.made(name).read_text(encoding="utf-8")


def times(series: EpisodeFolder) -> list[str]:
    lines = text(series, "description.txt").splitlines()
    start = lines.index("Times:") + 1
    return lines[start : lines.index("", start)]


def test_description(series: EpisodeFolder) -> None:
    written = text(series, "description.txt")

    assert written == DESCRIPTION.format(time=_time_in(written))


def test_announcement(series: EpisodeFolder) -> None:
    written = text(series, "announcement.txt")
    warm_up = next(line for line in written.splitlines() if line.startswith("- Warm-up: "))

    assert written == ANNOUNCEMENT.format(time=_time_in(written), warm_up=warm_up.removeprefix("- Warm-up: "))


def _time_in(written: str) -> str:
    line = next(line for line in written.splitlines() if line.startswith("Time: "))
    return line.removeprefix("Time: ").partition(",")[0]


def test_words_are_plain_text(series: EpisodeFolder) -> None:
    series.edit(
        EPISODE,
        "A short session to learn how the series works.",
        "A **short** session & more <3 at [the page](https://movement.example/)",
    )

    assert "A short session & more <3 at the page\n" in text(series, "announcement.txt")


def one_block(at: str, *items: str) -> str:
    shown = "\n".join(f'      - {{exercise: jumping-jack, at: "{time}", dose: 30 s}}' for time in items)
    return (
        f'  - name: Block at {at}\n    kind: conditioning\n    format: circuit\n    at: "{at}"\n    items:\n'
        + (shown or "      - {exercise: jumping-jack, dose: 30 s}")
        + "\n"
    )


REPAIRS = {
    "a first block after a few seconds moves to 0:00": (
        one_block("0:05") + one_block("1:00") + one_block("2:00"),
        ["0:00 Block at 0:05", "1:00 Block at 1:00", "2:00 Block at 2:00"],
        ["'the opening' and 'Block at 0:05' share one entry, 0:00"],
    ),
    "a block shorter than ten seconds joins the one before": (
        one_block("0:00") + one_block("1:00") + one_block("1:08") + one_block("2:00"),
        ["0:00 Block at 0:00 / Block at 1:00", "1:08 Block at 1:08", "2:00 Block at 2:00"],
        ["'Block at 0:00' and 'Block at 1:00' share one entry, 0:00"],
    ),
    "one block: its exercises are listed": (
        one_block("0:00", "0:20", "1:00"),
        ["0:00 Block at 0:00", "0:20 Jumping jack", "1:00 Jumping jack"],
        ["names exercises too"],
    ),
    "one block without times cannot be repaired": (
        one_block("0:00"),
        ["0:00 Block at 0:00"],
        ["has 1 of 3 entries it needs"],
    ),
    "an hour and more": (
        one_block("0:00") + one_block("59:59") + one_block("1:00:10"),
        ["0:00 Block at 0:00", "59:59 Block at 59:59", "1:00:10 Block at 1:00:10"],
        [],
    ),
}


@pytest.mark.parametrize(("blocks", "listed", "said"), REPAIRS.values(), ids=REPAIRS)
def test_the_list_of_times_is_repaired_and_check_says_so(
    series: EpisodeFolder, blocks: str, listed: list[str], said: list[str]
) -> None:
    series.video('{host: harbour, id: a, length: "1:30:00"}')
    series.blocks(blocks)

    assert times(series) == listed
    warnings = [p.message for p in series.problems("warning") if p.check == "chapter-list"]
    assert len(warnings) == len(said)
    assert all(part in message for part, message in zip(said, warnings, strict=True))


def test_two_blocks_at_one_time_are_refused(series: EpisodeFolder) -> None:
    series.blocks(one_block("0:00") + one_block("0:00"))

    second = series.episode.splitlines().index("  - name: Block at 0:00", series.episode.count("\n") - 6) + 1
    assert [(p.check, p.line) for p in series.problems()] == [("time-order", second + 3)]
