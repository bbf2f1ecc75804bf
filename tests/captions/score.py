"""Comparing a draft with the truth of its recording."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from sitegen.draft.found import FoundBlock, FoundItem
from sitegen.notation import Dose, NotationError

REACH = 30.0
"""An exercise counts as found where its start is at most so many seconds off."""

TURN_REACH = 10.0
"""A your-turn point counts as found where it is at most so many seconds off."""


@dataclass(slots=True)
class Score:
    """Sums over one or more recordings."""

    found: int = 0
    """Exercises that the draft has and the truth has too."""
    drafted: int = 0
    true: int = 0
    doses_right: int = 0
    doses: int = 0
    """True exercises with a dose, and found ones that were given a dose they do not have."""
    turns_right: int = 0
    turns: int = 0
    """The larger of the number of true and of drafted your-turn points, per recording."""
    sets_right: int = 0
    formats_right: int = 0
    blocks: int = 0
    """True blocks with sets."""
    formats: int = 0
    """True blocks with a format."""
    start_errors: list[float] = field(default_factory=list)
    """Seconds, of the found exercises."""
    stubs_right: int = 0
    stubs_drafted: int = 0
    stubs: int = 0
    """True exercises that the library lacks."""
    misses: list[str] = field(default_factory=list)

    def add(self, other: "Score") -> None:
        """Add the sums of another recording."""
        for name in self.__dataclass_fields__:
            setattr(self, name, getattr(self, name) + getattr(other, name))

    @property
    def recall(self) -> float:
        """Share of the true exercises that were found."""
        return share(self.found, self.true)

    @property
    def precision(self) -> float:
        """Share of the drafted exercises that are true."""
        return share(self.found, self.drafted)

    def start_error(self, fraction: float) -> float:
        """Quantile of the start errors in seconds."""
        ordered = sorted(self.start_errors)
        return ordered[min(len(ordered) - 1, int(fraction * len(ordered)))] if ordered else 0.0


def share(part: int, whole: int) -> float:
    """``part / whole``; 1 where there is nothing to get right."""
    return part / whole if whole else 1.0


def score(blocks: Iterable[FoundBlock], truth: dict[str, Any]) -> Score:
    """How right a draft is."""
    found = list(blocks)
    total = Score()
    _score_items(total, found, truth)
    _score_turns(total, found, truth)
    _score_blocks(total, found, truth)
    return total


def _score_items(total: Score, found: list[FoundBlock], truth: dict[str, Any]) -> None:
    drafted = [item for block in found for item in block.items]
    left = [item for item in drafted if item.exercise]
    new = [item for item in drafted if not item.exercise]
    total.drafted, total.stubs_drafted = len(left), len(new)
    for entry in (item for block in truth["blocks"] for item in block["items"]):
        if "new" in entry:
            total.stubs += 1
            hits = [
                item
                for item in new
                if abs(item.start - entry["start"]) <= REACH and _same_name(item, entry["new"])
            ]
            total.stubs_right += bool(hits)
            new = [item for item in new if item not in hits[:1]]
            if not hits:
                total.misses.append(f"stub not found: {entry['new']} at {entry['start']}")
            continue
        total.true += 1
        near = [i for i in left if i.exercise == entry["exercise"] and abs(i.start - entry["start"]) <= REACH]
        total.doses += bool(entry.get("dose"))
        if not near:
            total.misses.append(f"not found: {entry['exercise']} at {entry['start']}")
            continue
        item = min(near, key=lambda i: abs(i.start - entry["start"]))
        left.remove(item)
        total.found += 1
        total.start_errors.append(abs(item.start - entry["start"]))
        _score_dose(total, item, entry)
    total.misses += [f"too many: {item.exercise} at {item.start:.1f}" for item in left]
    total.misses += [f"stub too many: {item.heard!r} at {item.start:.1f}" for item in new]


def _same_name(item: FoundItem, name: str) -> bool:
    return bool(
        {word.rstrip("s") for word in item.heard.split()} & {word.rstrip("s") for word in name.split()}
    )


def _score_dose(total: Score, item: FoundItem, entry: dict[str, Any]) -> None:
    wanted = _dose(entry.get("dose"))
    total.doses += wanted is None and item.dose is not None
    right = item.dose == wanted
    total.doses_right += right and wanted is not None
    if not right:
        total.misses.append(f"dose of {entry['exercise']} at {entry['start']}: {item.dose} for {wanted}")


def _dose(text: str | None) -> Dose | None:
    try:
        return Dose.parse(text) if text else None
    except NotationError:
        return None


def _score_turns(total: Score, found: list[FoundBlock], truth: dict[str, Any]) -> None:
    wanted = [block["your_turn"] for block in truth["blocks"] if block["your_turn"] is not None]
    left = [block.your_turn for block in found if block.your_turn is not None]
    total.turns = max(len(wanted), len(left))
    for at in wanted:
        near = [turn for turn in left if abs(turn - at) <= TURN_REACH]
        if near:
            left.remove(near[0])
            total.turns_right += 1
        else:
            total.misses.append(f"turn not found: {at}")
    total.misses += [f"turn too many: {turn:.1f}" for turn in left]


def _score_blocks(total: Score, found: list[FoundBlock], truth: dict[str, Any]) -> None:
    for entry in truth["blocks"]:
        near = min(found, key=lambda block: abs(block.start - entry["start"]), default=None)
        if entry.get("sets"):
            total.blocks += 1
            right = near is not None and str(near.sets) == entry["sets"]
            total.sets_right += right
            if not right:
                total.misses.append(f"sets at {entry['start']}: {near and near.sets} for {entry['sets']}")
        if entry.get("format"):
            total.formats += 1
            right = near is not None and near.format == entry["format"]
            total.formats_right += right
            if not right:
                total.misses.append(
                    f"format at {entry['start']}: {near and near.format} for {entry['format']}"
                )
