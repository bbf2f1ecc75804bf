"""``sitegen draft``: prints, or writes and keeps what was there; says what it cannot use."""

import shutil
from pathlib import Path

import pytest

from sitegen.cli import OK, PROBLEMS, USAGE
from sitegen.commands import draft
from sitegen.reading.reader import read_content, read_series
from tests.captions.make import FILES
from tests.conftest import DEMO
from tests.demo_copy import copy_demo

CAPTIONS = FILES / "dev-03-galley-backtracking.txt"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    return copy_demo(tmp_path)


def run(*words: str | Path) -> int:
    import argparse

    parser = argparse.ArgumentParser()
    draft.add_arguments(parser)
    return draft.run(parser.parse_args([str(word) for word in words]))


def test_without_write_the_draft_is_printed_and_nothing_is_written(content: Path, capsys) -> None:
    before = sorted(content.rglob("*"))
    assert run(CAPTIONS, "--content", content, "--slug", "lee-tide") == OK
    printed = capsys.readouterr()
    assert 'title: "Lee tide"\nnumber: 13\n' in printed.out
    assert "5 blocks, 10 exercises" in printed.err
    assert sorted(content.rglob("*")) == before


def test_a_written_draft_is_the_next_episode(content: Path, capsys) -> None:
    captions = content / "captions" / "13.srt"
    shutil.copy(FILES / "dev-02-plain-chatty.srt", captions)
    assert run(captions, "--content", content, "--slug", "lee-tide", "--write") == OK
    episode = read_series(content).episodes[-1]
    assert (episode.number, episode.slug, episode.captions) == (13, "lee-tide", "captions/13.srt")
    assert capsys.readouterr().out == f"{content / 'episodes' / '13-lee-tide.yaml'}: written\n"


@pytest.mark.parametrize("encoding", ["utf-8", "cp1252", "utf-16"])
def test_captions_that_the_site_cannot_show_are_converted_beside_them(content: Path, encoding: str) -> None:
    """A plain transcript is enough for a draft; what is written must build."""
    captions = content / "captions" / "13.txt"
    captions.write_text(CAPTIONS.read_text(encoding="utf-8") + "[9:59] Café.\n", encoding=encoding)
    assert run(captions, "--content", content, "--slug", "lee-tide", "--write") == OK
    content_read = read_content(content)
    assert [p for p in content_read.problems if p.severity == "problem"] == []
    assert content_read.series is not None
    assert content_read.series.episodes[-1].captions == "captions/13.vtt"
    assert "Café" in (content / "captions" / "13.vtt").read_text(encoding="utf-8")


def test_captions_from_elsewhere_are_taken_into_the_series(content: Path) -> None:
    assert run(CAPTIONS, "--content", content, "--slug", "lee-tide", "--write") == OK
    assert read_series(content).episodes[-1].captions == f"captions/{CAPTIONS.stem}.vtt"


def test_a_file_that_is_there_is_kept(content: Path) -> None:
    path = content / "episodes" / "13-lee-tide.yaml"
    path.write_text("mine\n")
    words = (CAPTIONS, "--content", content, "--slug", "lee-tide", "--number", "13", "--write")
    assert run(*words) == OK
    assert path.with_name("13-lee-tide.yaml.old").read_text() == "mine\n"
    assert run(*words) == OK
    assert path.with_name("13-lee-tide.yaml.old-2").read_text() == path.read_text()


def test_the_same_film_does_not_become_a_second_episode_by_mistake(content: Path, capsys) -> None:
    shutil.copy(FILES / "dev-02-plain-chatty.srt", content / "captions" / "99.srt")
    words = (content / "captions" / "99.srt", "--content", content, "--write")
    assert run(*words) == OK
    [written] = [line.split(":")[0] for line in capsys.readouterr().out.splitlines()]
    before = {path: path.read_bytes() for path in (content / "episodes").iterdir()}
    assert run(*words) == USAGE
    said = capsys.readouterr().err
    assert f"{written} is made from this film already; nothing was written" in said
    assert {path: path.read_bytes() for path in (content / "episodes").iterdir()} == before
    again = said.split("Add ")[1].split(" to make it again")[0].split()
    assert run(*words, *again) == OK
    assert Path(f"{written}.old").read_bytes() == before[Path(written)]


def test_a_plan_is_filled_in_place_and_kept(content: Path, capsys) -> None:
    plan = content / "episodes" / "01-cast-off.yaml"
    written = "".join(line for line in plan.read_text().splitlines(keepends=True) if " at: " not in line)
    plan.write_text(written)
    assert run(DEMO / "captions" / "01.vtt", "--plan", plan, "--content", content) == OK
    assert plan.read_text() == written
    assert capsys.readouterr().err.startswith("14 of 14 planned exercises found\n")
    assert run(DEMO / "captions" / "01.vtt", "--plan", plan, "--content", content, "--write") == OK
    assert plan.with_name("01-cast-off.yaml.old").read_text() == written
    assert read_series(content).episodes[0].slug == "cast-off"


def test_a_plan_of_another_session_is_refused(content: Path, capsys) -> None:
    plan = content / "episodes" / "08-crosswind.yaml"
    before = plan.read_text()
    assert run(FILES / "dev-06-chair-tidy.srt", "--plan", plan, "--content", content, "--write") == PROBLEMS
    assert "the plan has little to do with the recording" in capsys.readouterr().err
    assert plan.read_text() == before


@pytest.mark.parametrize(
    ("data", "message"),
    [
        pytest.param(b"", "the file has no cues", id="empty"),
        pytest.param(b"\x89PNG\r\n\x1a\n\0\0\0", "this is no text file", id="binary"),
        pytest.param(b"[0:09] a\n[0:01] b\n", "runs backwards", id="backwards"),
        pytest.param(b"[0:01] " + b"x" * 20_000_000, "a caption file may have 20 MB", id="20-MB"),
    ],
)
def test_captions_that_cannot_be_used(
    content: Path, tmp_path: Path, capsys, data: bytes, message: str
) -> None:
    path = tmp_path / "talk.txt"
    path.write_bytes(data)
    assert run(path, "--content", content) == PROBLEMS
    assert message in capsys.readouterr().out


def test_talk_without_exercises(content: Path, tmp_path: Path, capsys) -> None:
    path = tmp_path / "talk.txt"
    path.write_text(
        "".join(f"[0:{s:02d}] we talk about the boat and the weather and you\n" for s in range(0, 60, 5))
    )
    assert run(path, "--content", content) == PROBLEMS
    assert "no exercise of the library is heard in it" in capsys.readouterr().err


def test_a_missing_file_is_a_slip_of_the_keyboard(content: Path, capsys) -> None:
    assert run("nowhere.vtt", "--content", content) == USAGE
    assert "there is no file nowhere.vtt" in capsys.readouterr().err


def test_an_address_that_is_taken(content: Path, capsys) -> None:
    assert run(CAPTIONS, "--content", content, "--slug", "cast-off") == USAGE
    assert "an episode with the address cast-off is there already" in capsys.readouterr().err


def test_a_filled_plan_names_its_video_and_captions(content: Path, capsys) -> None:
    plan = content / "episodes" / "01-cast-off.yaml"
    kept = [
        one
        for one in plan.read_text().splitlines(keepends=True)
        if not one.startswith(("video:", "captions:"))
    ]
    plan.write_text("".join(one for one in kept if " at: " not in one))
    film = ("--video", content / "media/01.webm")
    assert run(content / "captions/01.vtt", "--plan", plan, *film, "--content", content, "--write") == OK

    episode = next(one for one in read_series(content).episodes if one.slug == "cast-off")
    assert episode.video is not None
    assert (episode.video.file, episode.captions) == ("media/01.webm", "captions/01.vtt")
    assert "names no video" not in capsys.readouterr().err


def test_a_filled_plan_without_a_video_says_so(content: Path, capsys) -> None:
    plan = content / "episodes" / "01-cast-off.yaml"
    text = plan.read_text()
    plan.write_text("".join(one for one in text.splitlines(keepends=True) if not one.startswith("video:")))
    run(content / "captions/01.vtt", "--plan", plan, "--content", content, "--write")

    assert "the episode names no video yet: give it with --video" in capsys.readouterr().err
