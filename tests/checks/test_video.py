"""Warnings about captions and text alternatives (chapter lists: see the tests of texts to paste)."""

from pathlib import Path

import pytest

from tests.pages.episode_folder import EPISODE, EpisodeFolder


@pytest.fixture
def series(tmp_path: Path) -> EpisodeFolder:
    folder = EpisodeFolder(tmp_path)
    folder.edit(EPISODE, "# captions: captions/01.vtt", "captions: captions/01.vtt")
    folder.write("captions/01.vtt", captions("00:08:29.000"))
    return folder


def captions(end: str) -> str:
    return f"WEBVTT\n\n00:00:01.000 --> 00:00:04.000\nHello\n\n00:08:20.000 --> {end}\nGoodbye\n"


def said(series: EpisodeFolder, check: str) -> list[str]:
    return [problem.message for problem in series.problems("warning") if problem.check == check]


@pytest.mark.parametrize("end", ["00:08:29.000", "00:08:30.000", "00:08:30.900"])
def test_captions_inside_the_video_are_fine(series: EpisodeFolder, end: str) -> None:
    series.write("captions/01.vtt", captions(end))

    assert said(series, "captions-past-end") == []
    assert said(series, "no-captions") == []


def test_captions_past_the_end_are_another_cuts(series: EpisodeFolder) -> None:
    series.write("captions/01.vtt", captions("00:08:35.000"))

    assert said(series, "captions-past-end") == ["one caption runs past the end of the video (8:30), to 8:35"]


def test_captions_are_not_measured_against_a_length_nobody_knows(series: EpisodeFolder) -> None:
    series.video("{host: harbour, id: a}")
    series.write("captions/01.vtt", captions("01:08:35.000"))

    assert said(series, "captions-past-end") == []


def test_a_video_without_captions(series: EpisodeFolder) -> None:
    series.edit(EPISODE, "captions: captions/01.vtt", "# none")

    assert said(series, "no-captions") == ["the video has no captions"]


def test_an_episode_without_a_video_needs_no_captions(series: EpisodeFolder) -> None:
    text = "\n".join(
        line for line in series.episode.splitlines() if not line.startswith(("video:", "captions:"))
    )
    series.write(EPISODE, text)

    assert said(series, "no-captions") == []


def test_the_trainer_may_have_a_reason(series: EpisodeFolder) -> None:
    series.edit(EPISODE, "captions: captions/01.vtt", "silence: {no-captions: Nobody speaks in it}")

    assert said(series, "no-captions") == []


@pytest.mark.parametrize("alt", ["", "x", "01", "01.svg", "01.SVG", "pic"])
def test_a_text_alternative_that_says_nothing(series: EpisodeFolder, alt: str) -> None:
    picture(series, f'"{alt}"')

    assert said(series, "picture-alt") == [
        f"the text alternative {alt!r} does not say what the picture shows"
    ]


def test_a_text_alternative_that_says_something(series: EpisodeFolder) -> None:
    picture(series, "A person sits down on a chair")

    assert said(series, "picture-alt") == []


def test_a_picture_without_a_text_alternative_is_refused(series: EpisodeFolder) -> None:
    series.write("media/01.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>")
    series.write(EPISODE, series.episode.replace("blocks:", "poster: {file: media/01.svg}\nblocks:"))

    assert [(problem.check, "'alt'" in problem.message) for problem in series.problems()] == [
        ("missing-key", True)
    ]


def picture(series: EpisodeFolder, alt: str) -> None:
    series.write("media/01.svg", "<svg xmlns='http://www.w3.org/2000/svg'/>")
    file = "exercises/chair-squat.yaml"
    text = (series.root / file).read_text()
    series.write(file, f"{text}pictures: [{{file: media/01.svg, alt: {alt}}}]\n")


@pytest.mark.parametrize(
    ("video", "warned"),
    [
        ("{file: media/01.webm}", True),
        ("{file: [media/01.webm, media/02.ogv]}", True),
        ("{file: [media/01.webm, media/02.MP4]}", False),
        ("{file: media/01.m4v}", False),
        ("{host: harbour, id: x}", False),
    ],
)
def test_a_video_that_older_phones_cannot_play(series: EpisodeFolder, video: str, warned: bool) -> None:
    for name in ("01.webm", "02.ogv", "02.MP4", "01.m4v"):
        series.write(f"media/{name}", b"film")
    series.video(video)

    wanted = ["iPhones and iPads before iOS 17.4 cannot play 'media/01.webm'"] if warned else []
    assert said(series, "video-form") == wanted
