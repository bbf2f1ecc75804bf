"""Drafting the recordings of the measurement, and scoring the drafts."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from sitegen.draft.found import FoundBlock
from sitegen.draft.plan import PlannedBlock, PlannedItem
from sitegen.draft.recording import hear, session_of
from sitegen.draft.shown import shown_of
from sitegen.draft.transcript import read_transcript
from sitegen.notation import Dose
from sitegen.reading.captions.cues import Captions
from tests.captions.errors import spoil
from tests.captions.library import series_of
from tests.captions.make import FILES
from tests.captions.score import Score, score

ERROR_SEEDS = ("a", "b", "c")
"""Each recording is spoiled with recognition errors once with each of these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recorded:
    """One recording of the measurement with its truth."""

    name: str
    path: Path
    truth: dict[str, Any]

    @property
    def captions(self) -> Captions:
        """Its captions as they were made."""
        return read_transcript(self.path.read_bytes(), self.path.name)

    def spoiled(self, seed: str) -> Captions:
        """Its captions with recognition errors."""
        return Captions(cues=tuple(spoil(self.captions.cues, self.name + seed)), problems=[])


def recordings(half: str) -> Iterator[Recorded]:
    """The recordings of one half: ``dev`` or ``held``."""
    for path in sorted(FILES.glob(f"{half}-*")):
        if not path.name.endswith(".truth.yaml"):
            truth = yaml.safe_load(path.with_suffix(".truth.yaml").read_text(encoding="utf-8"))
            yield Recorded(name=path.stem, path=path, truth=truth)


def drafted(captions: Captions, truth: dict[str, Any]) -> list[FoundBlock]:
    """The session found in captions without a plan."""
    return session_of(hear(captions, series_of(truth["library"])))


def drafted_with_plan(captions: Captions, truth: dict[str, Any]) -> list[FoundBlock]:
    """The session found in captions where exercises and doses are planned as in the truth."""
    plan = _plan(truth)
    exercises = frozenset(item.exercise for block in plan for item in block.items)
    shown = shown_of(hear(captions, series_of(truth["library"]), exercises), plan)
    for block, found in zip(plan, shown, strict=True):
        for item, seen in zip(block.items, found.items, strict=True):
            if seen is not None:
                seen.exercise = item.exercise
    return [found.block for found in shown if found.block]


def _plan(truth: dict[str, Any]) -> list[PlannedBlock]:
    return [
        PlannedBlock(
            name=block["name"],
            kind=block["kind"],
            sets=None,
            items=tuple(
                PlannedItem(
                    exercise=item["exercise"], dose=Dose.parse(item["dose"]) if item.get("dose") else None
                )
                for item in block["items"]
                if "exercise" in item
            ),
        )
        for block in truth["blocks"]
    ]


def without_new(truth: dict[str, Any]) -> dict[str, Any]:
    """The truth without exercises that the library lacks: a plan cannot name them."""
    blocks = [{**b, "items": [i for i in b["items"] if "exercise" in i]} for b in truth["blocks"]]
    return {**truth, "blocks": blocks}


def measured(half: str, *, errors: bool, plan: bool, seeds: Iterable[str] = ERROR_SEEDS) -> Score:
    """The sums over one half."""
    total = Score()
    for recorded in recordings(half):
        truth = without_new(recorded.truth) if plan else recorded.truth
        for captions in [recorded.spoiled(seed) for seed in seeds] if errors else [recorded.captions]:
            found = (drafted_with_plan if plan else drafted)(captions, truth)
            one = score(found, truth)
            one.misses = [f"{recorded.name}: {miss}" for miss in one.misses]
            total.add(one)
    return total
