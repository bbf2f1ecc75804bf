"""The recordings of every hand, in one form: captions, library and truth.

A hand is somebody who wrote and marked up recordings. Hand ``A`` is the project's own (scripts in
``scripts/``); the others were written without knowledge of the program and lie in ``hands/<hand>/``:
``<name>.vtt`` (or ``.srt``, ``.txt``), ``<name>.truth.json`` and ``<name>.library.yaml``.
Further recordings lie in ``unseen/<hand>/`` in the same form. They are scored and never read, and nothing
is learned from them: what they get is what a stranger gets.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import yaml

from sitegen.drafting.transcript.captions import read_transcript
from sitegen.model import Details, Kit, Series, Trainer
from sitegen.reading.captions.cues import Captions
from sitegen.vocabulary import CIRCUIT, ITEMS_OF_FORMAT
from tests.captions.library import exercise_of, series_of
from tests.captions.script import FOLDER

HANDS = FOLDER / "hands"
UNSEEN = FOLDER / "unseen"
OWN = "A"
"""The project's own hand."""

FORMS = (".vtt", ".srt", ".txt")


@dataclass(frozen=True, slots=True, kw_only=True)
class Recording:
    """One recording with its truth, as ``hands/README.md`` describes it."""

    hand: str
    name: str
    captions: Captions
    series: Series
    truth: dict[str, Any]


def hands() -> list[str]:
    """All hands, the own one first."""
    return [OWN, *sorted(path.name for path in HANDS.iterdir() if path.is_dir())]


def unseen_hands() -> list[str]:
    """The hands with recordings that are scored and never read."""
    return sorted(path.name for path in UNSEEN.iterdir() if path.is_dir())


def recordings_of(hand: str) -> Iterator[Recording]:
    """The recordings of a hand that may be read and learned from, by name."""
    if hand == OWN:
        yield from _own()
        return
    yield from _recordings_in(HANDS / hand)


def unseen_recordings_of(hand: str) -> Iterator[Recording]:
    """The recordings of a hand that are only scored, by name."""
    yield from _recordings_in(UNSEEN / hand)


def _recordings_in(folder: Path) -> Iterator[Recording]:
    for path in sorted(folder.glob("*.truth.json")):
        name = path.name.removesuffix(".truth.json")
        captions = next(p for form in FORMS if (p := path.with_name(name + form)).exists())
        yield Recording(
            hand=folder.name,
            name=name,
            captions=read_transcript(captions.read_bytes(), captions.name),
            series=_library(path.with_name(f"{name}.library.yaml")),
            truth=json.loads(path.read_text(encoding="utf-8")),
        )


def _own() -> Iterator[Recording]:
    for path in sorted((FOLDER / "files").glob("*.truth.yaml")):
        name = path.name.removesuffix(".truth.yaml")
        captions = next(p for form in FORMS if (p := path.with_name(name + form)).exists())
        truth = yaml.safe_load(path.read_text(encoding="utf-8"))
        yield Recording(
            hand=OWN,
            name=name,
            captions=read_transcript(captions.read_bytes(), captions.name),
            series=series_of(truth["library"]),
            truth=_common(truth),
        )


def _common(truth: dict[str, Any]) -> dict[str, Any]:
    """The own truth in the form of the other hands."""
    blocks = []
    for block in truth["blocks"]:
        items = [
            {
                "exercise": item.get("exercise"),
                "said": item.get("new", item.get("exercise", "")).replace("-", " "),
                "start": item["start"],
                "dose": item.get("dose"),
            }
            for item in block["items"]
        ]
        sets = block.get("sets")
        blocks.append(
            {
                "start": block["start"],
                "kind": block["kind"],
                "format": block.get("format"),
                # What goes round two or more exercises is a circuit too, as the other hands have it.
                "format_also": [CIRCUIT] if block.get("format") in ITEMS_OF_FORMAT else [],
                "sets": int(sets) if sets and str(sets).isdigit() else sets,
                "your_turn": block["your_turn"],
                "items": items,
            }
        )
    return {"blocks": blocks, "mentions_that_are_not_items": []}


def spans(truth: dict[str, Any]) -> list[tuple[float, float, dict[str, Any]]]:
    """Start, end and truth of every item shown; it ends where the next one, a block or the turn is."""
    marks = sorted(
        [b["start"] for b in truth["blocks"]]
        + [b["your_turn"] for b in truth["blocks"] if b["your_turn"] is not None]
        + [i["start"] for b in truth["blocks"] for i in b["items"]]
    )
    return [
        (
            item["start"],
            min((m for m in marks if m > item["start"] + 0.05), default=item["start"] + 120),
            item,
        )
        for block in truth["blocks"]
        for item in block["items"]
    ]


@lru_cache(maxsize=256)
def _library(path: Path) -> Series:
    data = yaml.safe_load(path.read_text(encoding="utf-8"))
    kit = {
        key: Kit(id=key, name=k["name"], stand_ins=tuple(k.get("stand_ins", ())))
        for key, k in (data.get("kit") or {}).items()
    }
    exercises = {entry["id"]: exercise_of(entry) for entry in data["exercises"]}
    details = Details(
        title=path.stem, summary="", address="https://movement.example/", trainer=Trainer(name="R"), kit=kit
    )
    return Series(details=details, episodes=(), exercises=exercises)
