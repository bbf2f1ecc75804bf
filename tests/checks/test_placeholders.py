"""What waits to be replaced or answered, and lengths that the video contradicts."""

import shutil
import subprocess
from pathlib import Path

import pytest

from sitegen.cli import main
from tests.folders import SeriesFolder

EPISODE = "episodes/01-first-steps.yaml"


@pytest.fixture
def series(tmp_path: Path) -> SeriesFolder:
    return SeriesFolder(tmp_path)


def _said(series: SeriesFolder, check: str) -> list[tuple[str, str]]:
    return [(p.message, p.advice) for p in series.problems("warning") if p.check == check]


def test_texts_of_the_starter_series_wait_to_be_replaced(series: SeriesFolder) -> None:
    assert {message.split(" is still")[0] for message, _ in _said(series, "placeholder")} == {
        "'First steps'",
        "title",
        "summary",
        "address",
        "trainer.name",
        "trainer.about",
    }
    series.edit("series.yaml", "title: My series", "title: Steps at home")
    assert "title" not in {message.split(" is still")[0] for message, _ in _said(series, "placeholder")}


def test_an_open_question_of_a_draft_is_told_with_its_place(series: SeriesFolder) -> None:
    place = series.spoil(
        EPISODE,
        "dose: 8-12, tempo",
        "dose: 8-12, tempo: 3-0-1-0}  ¦# QUESTION (2:20): how many?\n      - {exercise: chair-squat, dose: 8, tempo",
    )
    [problem] = [p for p in series.problems("warning") if p.check == "question"]
    assert (problem.line, problem.column) == place
    assert problem.message == "a question of the draft is open: (2:20): how many?"


def test_a_dose_of_one_is_asked_about(series: SeriesFolder) -> None:
    series.edit(EPISODE, "dose: 8-12", 'dose: "1"')
    assert _said(series, "dose-of-one") == [
        (
            "'chair-squat' has a dose of one repetition: is that what is meant?",
            "write the dose that is done, or silence: {dose-of-one: the reason}",
        )
    ]


@pytest.mark.parametrize("dose", ["1 each side", "2", "[2, 1, 2]", "1 min", "1 m"])
def test_other_small_doses_are_not(series: SeriesFolder, dose: str) -> None:
    series.edit(EPISODE, "dose: 8-12", f"dose: {dose}" if "[" in dose else f'dose: "{dose}"')
    assert _said(series, "dose-of-one") == []


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Eight seconds of grey."""
    path = tmp_path_factory.mktemp("film") / "grey.webm"
    source = "color=gray:size=64x64:rate=5:duration=8"
    subprocess.run(
        ["ffmpeg", "-v", "error", "-f", "lavfi", "-i", source, "-c:v", "libvpx", str(path)], check=True
    )
    return path


LENGTHS = {
    "0:08": [],
    "0:10": [],
    "0:11": ["length: says 0:11, but the video lasts 0:08"],
    "9:00": ["length: says 9:00, but the video lasts 0:08"],
}


@pytest.mark.parametrize(("length", "expected"), LENGTHS.items(), ids=LENGTHS)
def test_a_length_that_the_video_contradicts(
    series: SeriesFolder, film: Path, length: str, expected: list[str]
) -> None:
    (series.root / "media").mkdir()
    shutil.copyfile(film, series.root / "media/02.webm")
    text = f'title: Short\nnumber: 2\nvideo: {{file: media/02.webm, length: "{length}"}}\nblocks:\n  - {{routine: short-warm-up, at: "0:01"}}\n'
    series.write("episodes/02-short.yaml", text)
    assert [message for message, _ in _said(series, "length-differs")] == expected


# --- publishing ---------------------------------------------------------------------------------


def _own(series: SeriesFolder) -> None:
    """Replace the starter's texts, and name a target."""
    series.make_own()
    text = (series.root / "series.yaml").read_text()
    series.write("series.yaml", text + "publish:\n  home: {to: folder, path: published}\n")


def _publish(series: SeriesFolder) -> int:
    return main(["publish", "--content", str(series.root), "--pages-only", "--preview-only"])


def test_placeholders_are_never_published(series: SeriesFolder, capsys: pytest.CaptureFixture[str]) -> None:
    series.write(
        "series.yaml",
        (series.root / "series.yaml").read_text() + "publish:\n  home: {to: folder, path: published}\n",
    )
    assert _publish(series) == 1
    assert "nothing was published: put these right first" in capsys.readouterr().err
    series.make_own()
    assert _publish(series) == 0


def test_publish_shows_what_is_in_doubt_before_it_asks(
    series: SeriesFolder, capsys: pytest.CaptureFixture[str]
) -> None:
    _own(series)
    series.edit(EPISODE, "dose: 8-12", 'dose: "1"')
    series.edit(EPISODE, "number: 1", "number: 1   # QUESTION (0:10): is this right?")
    assert _publish(series) == 0
    out = capsys.readouterr().out
    assert "a question of the draft is open: (0:10): is this right?" in out
    assert "has a dose of one repetition" in out
