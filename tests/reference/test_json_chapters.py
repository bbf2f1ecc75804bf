"""chapters.json against the published field list.

Podcasting 2.0 namespace, *JSON Chapters Format*, version 1.2, 15 April 2021: ``version`` and
``chapters`` are required, the other names optional; of a chapter only ``startTime``.
"""

import json
from pathlib import Path
from urllib.parse import urlsplit

TOP = {
    "version": str,
    "chapters": list,
    "author": str,
    "title": str,
    "podcastName": str,
    "description": str,
    "fileName": str,
    "waypoints": bool,
}
CHAPTER = {
    "startTime": (int, float),
    "title": str,
    "img": str,
    "url": str,
    "toc": bool,
    "endTime": (int, float),
    "location": dict,
}


def test_every_file_of_the_demo_has_the_fields_and_their_order(demo_site: Path) -> None:
    files = sorted(demo_site.glob("episodes/*/chapters.json"))
    assert len(files) == 12
    for file in files:
        data = json.loads(file.read_bytes())
        assert {"version", "chapters"} <= data.keys() <= TOP.keys()
        assert data["version"] == "1.2.0"
        assert all(isinstance(value, TOP[name]) for name, value in data.items())
        for chapter in data["chapters"]:
            assert {"startTime"} <= chapter.keys() <= CHAPTER.keys()
            assert all(isinstance(value, CHAPTER[name]) for name, value in chapter.items())
            assert urlsplit(chapter["url"]).scheme == "https"
            assert chapter["startTime"] < chapter["endTime"]
        starts = [chapter["startTime"] for chapter in data["chapters"]]
        assert starts == sorted(starts)
        assert starts[0] == 0


def test_chapters_are_the_blocks(demo_site: Path) -> None:
    data = json.loads((demo_site / "episodes/steady-pull/chapters.json").read_bytes())

    assert [(c["startTime"], c["endTime"], c["title"]) for c in data["chapters"]] == [
        (0, 22, "Welcome"),
        (22, 144, "Harbour warm-up"),
        (144, 202, "Shake the decks"),
        (202, 300, "First tri-set"),
        (300, 368, "Pull down, rise up"),
        (368, 506, "Slack tide"),
    ]
    assert data["chapters"][1]["url"] == "https://movement.example/galley/episodes/steady-pull/#t=22"
