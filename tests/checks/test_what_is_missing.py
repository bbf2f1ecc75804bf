"""Times without a film, files that nothing uses, loads that do not say of what they are."""

import re
from pathlib import Path

from tests.folders import SeriesFolder


def test_times_without_a_video_are_told_and_a_plan_has_none(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    series.make_own()
    assert [(p.check, p.line) for p in series.problems("warning")] == [("no-video", 9)]
    text = (series.root / "episodes/01-first-steps.yaml").read_text()
    series.write("episodes/01-first-steps.yaml", re.sub(r"\n? *(?:at|your_turn): \"[\d:]+\",?", "", text))
    assert series.problems() == []
    assert series.problems("warning") == []


def test_files_that_nothing_uses_are_told(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    for file in ("media/02.webm", "captions/02.vtt", "media/face.png"):
        series.write(file, "x")
    told = [(p.file, p.advice) for p in series.problems("warning") if p.check == "unused-file"]
    assert told == [
        (
            "captions/02.vtt",
            "add captions: captions/02.vtt to its episode, or move the file out of the content folder",
        ),
        (
            "media/02.webm",
            "add video: {file: media/02.webm} to its episode, or move the file out of the content folder",
        ),
    ]


def test_a_mass_in_a_container_is_asked_about(tmp_path: Path) -> None:
    series = SeriesFolder(tmp_path)
    series.edit("series.yaml", "holds: 15 kg", "holds: 10 l")
    series.edit("episodes/01-first-steps.yaml", "dose: 8 each side", "load: 4.5 kg, dose: 8 each side")
    told = [(p.message, p.advice) for p in series.problems("warning") if p.check == "load-of-what"]
    assert told == [
        (
            "4.5 kg in 'Backpack with books' does not say of what, and clients measure litres",
            "write for example 4.5 l water, or how many litres of sand",
        )
    ]
