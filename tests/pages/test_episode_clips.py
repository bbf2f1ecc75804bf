"""The video for search engines: schema.org VideoObject with Clips, in JSON-LD.

schema.org: ``startOffset`` and ``endOffset`` are seconds from the start of the work. ISO 8601: minutes
need the ``T``; ten minutes are ``PT10M`` (``P10M`` is ten months).
"""

import json
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup

from sitegen.pages.episode.clips import iso_duration
from tests.pages.episode_folder import EPISODE, EpisodeFolder

DURATIONS = {0: "PT0S", 1: "PT1S", 60: "PT1M", 506: "PT8M26S", 600: "PT10M", 3600: "PT1H", 3661: "PT1H1M1S"}


@pytest.mark.parametrize(("seconds", "written"), DURATIONS.items())
def test_durations_are_those_of_iso_8601(seconds: int, written: str) -> None:
    assert iso_duration(seconds) == written


def video_object(page: BeautifulSoup) -> Any:
    blocks = page.select('script[type="application/ld+json"]')
    assert len(blocks) == 1
    return json.loads(blocks[0].get_text())


def test_a_video_of_the_site(demo_site: Path) -> None:
    page = BeautifulSoup((demo_site / "episodes/steady-pull/index.html").read_bytes(), "html.parser")
    data = video_object(page)
    clips = data.pop("hasPart")
    film = data.pop("contentUrl")

    # Its cover is drawn, and a drawing in the page is no picture that has an address.
    assert data == {
        "@context": "https://schema.org",
        "@type": "VideoObject",
        "name": "Steady pull",
        "description": "Lunges, two kinds of pulling and a press with food tins. "
        "The first week ends with a calm and even rhythm.",
        "url": "https://movement.example/galley/episodes/steady-pull/",
        "inLanguage": "en",
        "author": {"@type": "Person", "name": "Robin Vale"},
        "uploadDate": "2026-09-11",
        "duration": "PT8M26S",
    }
    assert (demo_site / film.removeprefix("https://movement.example/galley/")).is_file()
    assert clips[1] == {
        "@type": "Clip",
        "name": "Harbour warm-up",
        "startOffset": 22,
        "endOffset": 144,
        "url": "https://movement.example/galley/episodes/steady-pull/#t=22",
    }
    assert [clip["startOffset"] for clip in clips] == [0, 22, 144, 202, 300, 368]


def test_a_hosted_video_is_embedded(tmp_path: Path) -> None:
    data = video_object(EpisodeFolder(tmp_path).page())

    assert data["embedUrl"] == "https://play.video.example:8443/frames/a%2Fb%20c/from/0"
    assert "contentUrl" not in data
    assert "thumbnailUrl" not in data


def test_without_a_video_there_is_none(tmp_path: Path) -> None:
    series = EpisodeFolder(tmp_path)
    series.write(EPISODE, "\n".join(line for line in series.episode.splitlines() if "video:" not in line))

    assert series.page().select('script[type="application/ld+json"]') == []


def test_words_cannot_end_the_data(tmp_path: Path) -> None:
    series = EpisodeFolder(tmp_path)
    series.edit(EPISODE, "title: First steps", 'title: "3 < 5 & \\"more\\""')

    assert video_object(series.page())["name"] == '3 < 5 & "more"'
