"""What ffprobe and ffmpeg add where they are installed, and what is asked for where they are not."""

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.building.build import Builder
from sitegen.reading.media import MediaFault, draw_poster, probe_length
from sitegen.reading.read_cache import ReadCache
from sitegen.reading.reader import read_content
from tests.pages.episode_folder import EPISODE, EpisodeFolder
from tests.trees import let_settle

needs_ffmpeg = pytest.mark.skipif(
    not (shutil.which("ffmpeg") and shutil.which("ffprobe")), reason="ffmpeg and ffprobe are not installed"
)


@pytest.fixture(scope="session")
def film(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A video of 300 seconds, one picture a second."""
    target = tmp_path_factory.mktemp("film") / "film.webm"
    drawn = ["-f", "lavfi", "-i", "color=c=navy:s=64x36:r=1:d=300"]
    quick = ["-c:v", "libvpx", "-deadline", "realtime", "-cpu-used", "8"]
    subprocess.run(["ffmpeg", "-v", "error", *drawn, *quick, str(target)], check=True)
    return target.read_bytes()


@pytest.fixture
def series(tmp_path: Path) -> EpisodeFolder:
    return EpisodeFolder(tmp_path)


@pytest.fixture
def filmed(series: EpisodeFolder, film: bytes) -> EpisodeFolder:
    """An episode whose video gives neither length nor poster."""
    series.write("media/01.webm", film)
    series.video("{file: media/01.webm}")
    return series


@pytest.fixture
def no_tools(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A computer without ffmpeg and ffprobe."""
    monkeypatch.setenv("PATH", str(tmp_path))


def length(folder: EpisodeFolder, memory: ReadCache | None = None) -> int | None:
    content = read_content(folder.root, memory)
    assert content.series is not None
    video = content.series.episodes[0].video
    assert video is not None
    return video.length


ABOUT_LENGTHS = ("video-length", "video-unreadable")


def asked_for(folder: EpisodeFolder) -> list[str]:
    return [problem.check for problem in folder.problems("warning") if problem.check in ABOUT_LENGTHS]


@needs_ffmpeg
def test_a_missing_length_is_taken_from_the_file(filmed: EpisodeFolder) -> None:
    assert length(filmed) == 300
    assert asked_for(filmed) == []


@needs_ffmpeg
def test_a_length_that_is_written_counts(filmed: EpisodeFolder) -> None:
    filmed.video('{file: media/01.webm, length: "4:50"}')

    assert length(filmed) == 290


@needs_ffmpeg
def test_a_length_once_found_is_remembered(filmed: EpisodeFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    memory = ReadCache()
    let_settle(filmed.root)
    assert length(filmed, memory) == 300
    monkeypatch.setenv("PATH", "")

    assert length(filmed, memory) == 300


@needs_ffmpeg
def test_times_past_a_length_that_was_found_are_a_problem(filmed: EpisodeFolder) -> None:
    filmed.edit(EPISODE, 'your_turn: "4:00"', 'your_turn: "5:10"')

    assert [problem.check for problem in filmed.problems()] == ["past-end"]


def test_without_ffprobe_the_length_is_asked_for(series: EpisodeFolder, no_tools: None) -> None:
    series.write("media/01.webm", b"a video")
    series.video("{file: media/01.webm}")

    assert asked_for(series) == ["video-length"]
    assert "ffprobe" in next(p.advice for p in series.problems("warning") if p.check == "video-length")


def test_the_length_of_a_hosted_video_is_asked_for(series: EpisodeFolder) -> None:
    series.video("{host: harbour, id: a}")

    warning = next(p for p in series.problems("warning") if p.check == "video-length")
    assert warning.advice == 'add its length, such as length: "9:40"'
    assert warning.line == series.episode[: series.episode.index("video:")].count("\n") + 1


def test_an_episode_of_unknown_length_still_has_its_page(series: EpisodeFolder) -> None:
    series.video("{host: harbour, id: a}")
    page = series.page()

    assert len(page.select(".chapters li")) == 4
    assert page.select_one(".session-time") is None
    assert '"duration"' not in str(page)


@needs_ffmpeg
def test_a_file_that_is_no_video_is_reported(series: EpisodeFolder) -> None:
    series.write("media/01.webm", b"not a video at all")
    series.video("{file: media/01.webm}")

    assert sorted(asked_for(series)) == ["video-length", "video-unreadable"]
    assert series.page().find("video") is not None


@needs_ffmpeg
@pytest.mark.parametrize("name", ["-v.webm", "a b.webm", "concat:x.webm", "%d.webm"])
def test_a_files_name_is_only_a_name(tmp_path: Path, film: bytes, name: str) -> None:
    video = tmp_path / name
    video.write_bytes(film)

    assert probe_length(video) == 300
    draw_poster(video, 3, tmp_path / "poster.jpg")
    assert (tmp_path / "poster.jpg").read_bytes().startswith(b"\xff\xd8")


@needs_ffmpeg
def test_a_playlist_may_not_reach_other_hosts(tmp_path: Path) -> None:
    video = tmp_path / "list.m3u8"
    video.write_text("#EXTM3U\n#EXTINF:10,\nhttp://127.0.0.1:9/part.ts\n#EXT-X-ENDLIST\n")

    with pytest.raises(MediaFault, match=re.compile("ffprobe|protocol|not|Invalid", re.I)):
        probe_length(video)


@needs_ffmpeg
def test_a_poster_is_made_where_none_is_given(filmed: EpisodeFolder) -> None:
    page = filmed.page()
    address = page.select_one("video")["poster"]

    assert address.startswith("../../media/")
    assert (filmed.out / "episodes/first-steps" / address).resolve().read_bytes().startswith(b"\xff\xd8")
    about_video = page.select_one("script[type='application/ld+json']").string
    assert address.removeprefix("../../") in about_video


@needs_ffmpeg
def test_a_poster_that_is_given_comes_before_figures_and_these_before_one_from_the_film(
    filmed: EpisodeFolder,
) -> None:
    squat = "exercises/chair-squat.yaml"
    poses = "poses:\n  start: {props: [chair]}\n  finish: {base: seated}\nvariants:"
    filmed.write(squat, (filmed.root / squat).read_text().replace("variants:", poses))
    page = filmed.page()
    assert "poster" not in page.select_one("video").attrs
    assert page.select_one("#cover svg")
    assert not list(filmed.out.glob("media/*.jpg"))

    filmed.write("media/01.png", b"\x89PNG a picture")
    filmed.write(
        EPISODE, filmed.episode.replace("blocks:", "poster: {file: media/01.png, alt: A squat}\nblocks:")
    )
    page = filmed.page()
    poster = page.select_one("video")["poster"].removeprefix("../../")
    assert (filmed.out / poster).read_bytes() == b"\x89PNG a picture"
    assert not page.select_one("#cover svg")
    assert page.select_one("meta[property='og:image']")["content"].endswith(f"/{poster}")
    video_object = json.loads(page.select_one("script[type='application/ld+json']").get_text())
    assert video_object["thumbnailUrl"].endswith(f"/{poster}")
    home = BeautifulSoup(filmed.made("index.html", "").read_bytes(), "html.parser")
    shown = home.select_one("img.session-poster")
    assert (shown["src"], shown["alt"]) == (poster, "A squat")


@needs_ffmpeg
def test_a_poster_is_made_once_and_always_the_same(filmed: EpisodeFolder, tmp_path: Path) -> None:
    video = filmed.root / "media/01.webm"
    draw_poster(video, 75, tmp_path / "one.jpg")
    draw_poster(video, 75, tmp_path / "other.jpg")

    assert (tmp_path / "one.jpg").read_bytes() == (tmp_path / "other.jpg").read_bytes()
    assert sorted(path.name for path in tmp_path.glob("*.part")) == []
    Builder(filmed.root, filmed.out, jobs=1).build()
    assert Builder(filmed.root, filmed.out, jobs=1).build().written.made == ()


def test_without_ffmpeg_there_is_no_poster(series: EpisodeFolder, no_tools: None) -> None:
    series.write("media/01.webm", b"a video")
    series.video('{file: media/01.webm, length: "5:00"}')

    assert "poster" not in series.page().select_one("video").attrs
