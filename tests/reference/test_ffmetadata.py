"""chapters.ffmeta against FFmpeg's documentation, and through ffmpeg into a file and back out.

FFmpeg documentation, "Metadata": ``;FFMETADATA1``, ``[CHAPTER]`` with TIMEBASE, START and END;
``=``, ``;``, ``#``, backslash and newline in values are escaped by a backslash.
"""

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import DEMO
from tests.pages.episode_folder import EpisodeFolder

needs_ffmpeg = pytest.mark.skipif(
    not (shutil.which("ffmpeg") and shutil.which("ffprobe")), reason="ffmpeg and ffprobe are not installed"
)

NAMES = [
    "Get warm",
    "chapter #1",
    "bike\\shed",
    "push = pull; rest # not",
    "=;#\\",
    "ends with a backslash\\",
    "[CHAPTER]",
    ";FFMETADATA1",
    "Brücke · 橋",
]


BLOCK = """
  - name: {name}
    kind: conditioning
    format: straight sets
    at: {minute}:00
    sets: 1
    items:
      - {{exercise: jumping-jack, at: "{minute}:05", dose: 30 s, effort: RPE 6}}
"""


def written_for(tmp_path: Path, *names: str) -> Path:
    """The file of an episode whose blocks have these names, after a minute of welcome."""
    series = EpisodeFolder(tmp_path)
    series.video('{host: harbour, id: "a/b c", length: "15:00"}')
    named = (BLOCK.format(name=json.dumps(name), minute=minute) for minute, name in enumerate(names, 1))
    series.blocks("".join(named))
    return series.made("chapters.ffmeta")


@pytest.mark.parametrize(
    ("name", "escaped"),
    [("chapter #1", r"chapter \#1"), ("bike\\shed", r"bike\\shed"), ("a=b;c", r"a\=b\;c")],
)
def test_names_are_escaped_as_published(tmp_path: Path, name: str, escaped: str) -> None:
    assert f"title={escaped}" in written_for(tmp_path, name).read_text(encoding="utf-8").splitlines()


def test_the_form_is_the_documented_one(tmp_path: Path) -> None:
    lines = written_for(tmp_path, "Get warm").read_text(encoding="utf-8").splitlines()

    assert lines[0] == ";FFMETADATA1"
    assert lines[lines.index("[CHAPTER]") :][:5] == [
        "[CHAPTER]",
        "TIMEBASE=1/1000",
        "START=0",
        "END=60000",
        "title=Welcome",
    ]


def through_ffmpeg(video: Path, meta: Path, target: Path) -> dict[str, Any]:
    """Put the chapters into a copy of a video and ask ffprobe for them."""
    quietly = ["ffmpeg", "-v", "error", "-nostdin", "-y"]
    mapped = ["-map_metadata", "1", "-map_chapters", "1", "-codec", "copy"]
    subprocess.run([*quietly, "-i", str(video), "-i", str(meta), *mapped, str(target)], check=True)
    asked = ["ffprobe", "-v", "error", "-show_chapters", "-show_format", "-of", "json", str(target)]
    found: dict[str, Any] = json.loads(subprocess.run(asked, check=True, capture_output=True).stdout)
    return found


@needs_ffmpeg
def test_ffmpeg_gives_the_demos_chapters_back(demo_site: Path, tmp_path: Path) -> None:
    folder = demo_site / "episodes/steady-pull"
    found = through_ffmpeg(DEMO / "media/03.webm", folder / "chapters.ffmeta", tmp_path / "with.mkv")

    chapters = json.loads((folder / "chapters.json").read_bytes())["chapters"]
    assert [
        (float(one["start_time"]), float(one["end_time"]), one["tags"]["title"]) for one in found["chapters"]
    ] == [(one["startTime"], one["endTime"], one["title"]) for one in chapters]
    assert found["format"]["tags"]["title"] == "Steady pull"


@needs_ffmpeg
def test_ffmpeg_gives_any_name_back(tmp_path: Path) -> None:
    found = through_ffmpeg(DEMO / "media/03.webm", written_for(tmp_path, *NAMES), tmp_path / "with.mkv")

    # A space may follow a backslash at the end, which ffmpeg could not read otherwise.
    assert [one["tags"]["title"].rstrip(" ") for one in found["chapters"]] == ["Welcome", *NAMES]
