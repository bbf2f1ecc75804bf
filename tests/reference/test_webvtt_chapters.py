"""Written chapter and caption files against the rules of WebVTT.

W3C, *WebVTT: The Web Video Text Tracks Format*, "WebVTT file using only nested cues" and "WebVTT
chapter title text". The files are read back by webvtt-py, whose parser is not ours.
"""

import html
import itertools
import json
import re
from pathlib import Path

import pytest
import webvtt

from tests.pages.episode_folder import EPISODE, EpisodeFolder

TIMING = re.compile(r"(\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3}) --> (\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3})")
Span = tuple[float, float]


def clock(text: str) -> float:
    minutes, seconds = text.split(":")
    return int(minutes) * 60 + int(seconds)


def only_nested(spans: list[Span]) -> bool:
    """For any two cues, one contains the other or they do not overlap."""
    return all(
        one[1] <= other[0]
        or other[1] <= one[0]
        or (one[0] <= other[0] and other[1] <= one[1])
        or (other[0] <= one[0] and one[1] <= other[1])
        for one, other in itertools.combinations(spans, 2)
    )


PUBLISHED = {
    "the specification's nested chapters": (
        ["0:00 1:24", "0:00 0:44", "0:44 1:19", "1:24 5:00", "1:35 3:00", "3:00 5:00"],
        True,
    ),
    "the specification's example of partial overlap": (["0:00 1:00", "0:30 1:30"], False),
}


@pytest.mark.parametrize(("times", "nested"), PUBLISHED.values(), ids=PUBLISHED)
def test_the_rule_tells_the_published_examples_apart(times: list[str], nested: bool) -> None:
    spans = [(clock(start), clock(end)) for start, end in (pair.split() for pair in times)]

    assert only_nested(spans) is nested


def chapter_files(site: Path) -> list[Path]:
    return sorted(site.glob("episodes/*/chapters.vtt"))


def test_every_chapter_file_of_the_demo_keeps_the_rules(demo_site: Path) -> None:
    files = chapter_files(demo_site)
    assert len(files) == 12
    for file in files:
        captions = webvtt.read(file, strict=True).captions
        spans = [
            (cue.start_time.in_milliseconds() / 1000, cue.end_time.in_milliseconds() / 1000)
            for cue in captions
        ]
        identifiers = [cue.identifier for cue in captions if cue.identifier]
        assert only_nested(spans), file
        assert all(start < end for start, end in spans), file
        assert [start for start, _ in spans] == sorted(start for start, _ in spans), file
        assert len(identifiers) == len(set(identifiers)), file


def test_the_file_follows_the_grammar_line_by_line(demo_site: Path) -> None:
    for file in chapter_files(demo_site):
        head, *blocks = file.read_bytes().decode("utf-8").removesuffix("\n").split("\n\n")
        assert head == "WEBVTT"
        for block in blocks:
            lines = block.split("\n")
            timing = next(index for index, line in enumerate(lines) if "-->" in line)
            assert timing <= 1
            assert TIMING.fullmatch(lines[timing]), lines[timing]
            # Text spans and character references only: no tags.
            assert not re.search(r"<|&(?!amp;|lt;|gt;)", "".join(lines[timing + 1 :]))


@pytest.mark.parametrize("name", ["A & B", "3 < 5 > 2", "to --> fro", "NOTE to self", "Brücke · 橋"])
def test_any_name_survives_writing_and_reading(tmp_path: Path, name: str) -> None:
    series = EpisodeFolder(tmp_path)
    series.edit(EPISODE, "name: Get warm", f"name: {json.dumps(name)}")

    cues = webvtt.read(series.made("chapters.vtt"), strict=True).captions

    assert name in [html.unescape(cue.text) for cue in cues]


def test_captions_are_the_same_after_writing(demo_site: Path) -> None:
    content = Path(__file__).parent.parent.parent / "content/captions"
    for source in sorted(content.glob("*.vtt")):
        slug = {"01": "cast-off", "02": "fair-lead", "03": "steady-pull", "05": "ballast"}.get(source.stem)
        if slug is None:
            continue
        before = webvtt.read(source, strict=True).captions
        after = webvtt.read(demo_site / f"episodes/{slug}/captions.vtt", strict=True).captions
        assert [(c.start, c.end, c.text) for c in after] == [(c.start, c.end, c.text) for c in before]


def test_srt_becomes_webvtt(demo_site: Path) -> None:
    source = webvtt.from_srt(Path(__file__).parent.parent.parent / "content/captions/10.srt").captions
    written = webvtt.read(demo_site / "episodes/slack-water/captions.vtt", strict=True).captions

    assert [(c.start, c.end, c.text) for c in written] == [(c.start, c.end, c.text) for c in source]
