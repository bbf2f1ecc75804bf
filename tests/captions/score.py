"""Comparing drafts with the truth of their recordings.

What counts: an item is found where the exercise is the same and the starts are at most 15 s apart (60 s
in the wider measure), one to one, nearest first; an exercise that the library lacks is found by a stub of
a like name. A dose or number of sets is right only exactly; one below the bound of the draft is a
question, neither right nor wrong, and so are kinds, formats and turns below theirs. Blocks count within
20 s, turns within 10 s.
"""

import difflib
import re
import statistics
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from sitegen.drafting.findings import FoundBlock, FoundItem
from sitegen.drafting.structure.session import (
    DOSE_BOUND,
    FORMAT_BOUND,
    KIND_BOUND,
    SETS_BOUND,
    turn_is_told,
)
from sitegen.notation import Dose, NotationError

NEAR, WIDE, BLOCK_NEAR, TURN_NEAR = 15.0, 60.0, 20.0, 10.0
"""Seconds."""


@dataclass(slots=True)
class Score:
    """Sums over one or more recordings."""

    counts: Counter[str] = field(default_factory=Counter)
    errors: list[float] = field(default_factory=list)
    """Seconds, of the items found within a minute."""
    sure: list[tuple[str, float, bool]] = field(default_factory=list)
    """Of each finding what it is, its confidence, and whether it is right."""
    misses: list[str] = field(default_factory=list)

    def add(self, other: "Score") -> None:
        """Add the sums of another recording."""
        self.counts += other.counts
        self.errors += other.errors
        self.sure += other.sure
        self.misses += other.misses

    def rate(self, part: str, whole: str) -> float:
        """One count over another; 1 where there is nothing to get right."""
        return self.counts[part] / self.counts[whole] if self.counts[whole] else 1.0

    def rates(self) -> dict[str, float]:
        """The figures of the table of aims."""
        sure = [right for _, confidence, right in self.sure if confidence >= 0.9]
        return {
            "recall": self.rate("found", "items"),
            "precision": self.rate("found", "drafted"),
            "recall 60 s": self.rate("found wide", "items"),
            "precision 60 s": self.rate("found wide", "drafted wide"),
            "start s": statistics.median(self.errors) if self.errors else 0.0,
            "dose": self.rate("dose right", "doses"),
            "dose wrong": self.rate("dose wrong", "doses"),
            "at 0.04": self.doses_where(0.04),
            "sets": self.rate("sets right", "sets"),
            "sets wrong": self.rate("sets wrong", "sets"),
            "blocks P": self.rate("blocks found", "blocks drafted"),
            "blocks R": self.rate("blocks found", "blocks"),
            "format": self.rate("format right", "formats"),
            "fmt wrong": self.rate("format wrong", "formats"),
            "kind": self.rate("kind right", "blocks"),
            "kd wrong": self.rate("kind wrong", "blocks"),
            "pairs": self.rate("pairs right", "pairs"),
            "turns P": self.rate("turns found", "turns drafted"),
            "turns R": self.rate("turns found", "turns"),
            "stubs": self.rate("stubs found", "new"),
            "0.9 right": sum(sure) / len(sure) if sure else 1.0,
        }

    def doses_where(self, wrong: float) -> float:
        """The share of the doses that would be right without a question if the bound were such that this
        share of them is wrong: what is known, wherever the bound lies.
        """
        sure = sorted(((c, right) for what, c, right in self.sure if what == "dose"), reverse=True)
        best = rights = wrongs = 0
        for _, right in sure:
            rights, wrongs = rights + right, wrongs + (not right)
            if wrongs <= wrong * self.counts["doses"]:
                best = rights
        return best / self.counts["doses"] if self.counts["doses"] else 1.0


def score(blocks: Sequence[FoundBlock], truth: dict[str, Any]) -> Score:
    """How right a draft is."""
    total = Score()
    true = [(b, item) for b, block in enumerate(truth["blocks"]) for item in block["items"]]
    drafted = [(b, item) for b, block in enumerate(blocks) for item in block.items]
    match = _items(total, true, drafted)
    for i, j in match.items():
        _dose(total, true[i][1], drafted[j][1])
    _blocks(total, blocks, truth, true, drafted, match)
    _turns(total, blocks, truth)
    return total


def _turns(total: Score, blocks: Sequence[FoundBlock], truth: dict[str, Any]) -> None:
    turns = [b["your_turn"] for b in truth["blocks"] if b["your_turn"] is not None]
    found = [(b.your_turn, b.turn_confidence) for b in blocks if b.your_turn is not None]
    written = [b.your_turn for b in blocks if turn_is_told(b)]
    total.counts["turns"] += len(turns)
    total.counts["turns drafted"] += len(written)
    total.counts["turns found"] += len(nearest(turns, written, TURN_NEAR, float, float))
    right = set(nearest(turns, found, TURN_NEAR, float, lambda one: float(one[0])).values())
    total.sure += [("turn", confidence, n in right) for n, (_, confidence) in enumerate(found)]


def nearest(
    a: Sequence[Any],
    b: Sequence[Any],
    most: float,
    at_a: Callable[[Any], float],
    at_b: Callable[[Any], float],
    same: Callable[[Any, Any], bool] = lambda x, y: True,
) -> dict[int, int]:
    """Pairs of both, one to one, nearest first."""
    near = sorted(
        (abs(at_a(x) - at_b(y)), i, j)
        for i, x in enumerate(a)
        for j, y in enumerate(b)
        if abs(at_a(x) - at_b(y)) <= most and same(x, y)
    )
    pairs: dict[int, int] = {}
    for _, i, j in near:
        if i not in pairs and j not in pairs.values():
            pairs[i] = j
    return pairs


def _items(total: Score, true: list[Any], drafted: list[Any]) -> dict[int, int]:
    def pairs(most: float) -> dict[int, int]:
        return nearest(true, drafted, most, lambda t: t[1]["start"], lambda d: d[1].start, _same)

    match, wide = pairs(NEAR), pairs(WIDE)
    hits = set(match.values())
    active = sum(item.exercise is not None for _, item in drafted)
    total.counts.update(
        {
            "items": len(true),
            "found": len(match),
            "drafted": active + sum(drafted[j][1].exercise is None for j in match.values()),
            "found wide": len(wide),
            "drafted wide": active + sum(drafted[j][1].exercise is None for j in wide.values()),
            "new": sum(t["exercise"] is None for _, t in true),
            "stubs found": sum(true[i][1]["exercise"] is None for i in match),
        }
    )
    total.errors += [abs(true[i][1]["start"] - drafted[j][1].start) for i, j in wide.items()]
    for i, (_, item) in enumerate(true):
        if i not in match:
            total.misses.append(f"not found: {item['exercise'] or item['said']} at {item['start']}")
    for j, (_, item) in enumerate(drafted):
        if item.exercise is not None:
            total.sure.append(("item", item.confidence, j in hits))
            if j not in hits:
                total.misses.append(f"too many: {item.exercise} at {item.start:.1f} ({item.confidence:.2f})")
    return match


def _same(true: tuple[int, dict[str, Any]], drafted: tuple[int, FoundItem]) -> bool:
    if true[1]["exercise"] is not None:
        return bool(drafted[1].exercise == true[1]["exercise"])
    return drafted[1].exercise is None and alike(drafted[1].heard, true[1]["said"])


def alike(name: str, other: str) -> bool:
    """Whether two names share half of their telling words, or are written nearly the same."""
    a, b = (
        {re.sub(r"(ing|es|s|ers?)$", "", word) for word in re.findall(r"[a-z]+", text.lower())}
        - {"the", "a", "an", "of", "to", "with", "my", "your", "and", "on", "in", "for"}
        for text in (name, other)
    )
    if not a or not b:
        return False
    if len(a & b) / len(a | b) >= 0.5 or (a & b and (a <= b or b <= a)):
        return True
    return difflib.SequenceMatcher(None, " ".join(sorted(a)), " ".join(sorted(b))).ratio() >= 0.75


def true_doses(truth: dict[str, Any]) -> list[Dose]:
    """The doses that count as right."""
    doses = []
    for text in [truth.get("dose"), *truth.get("dose_also", [])]:
        try:
            doses += [Dose.parse(str(text))] if text else []
        except NotationError:
            continue
    return doses


def _dose(total: Score, truth: dict[str, Any], item: FoundItem) -> None:
    asked = item.dose is None or item.dose_confidence < DOSE_BOUND
    right = item.dose in true_doses(truth)
    if truth.get("dose"):
        total.counts["doses"] += 1
        total.counts["dose open" if asked else "dose right" if right else "dose wrong"] += 1
    elif not asked and not right:
        total.counts["dose invented"] += 1
    if item.dose is not None:
        total.sure.append(("dose", item.dose_confidence, right))
    if not right or asked:
        said = f"{item.dose} ({item.dose_confidence:.2f})"
        total.misses.append(f"dose of {item.exercise} at {truth['start']}: {said} for {truth.get('dose')}")


def _blocks(
    total: Score,
    blocks: Sequence[FoundBlock],
    truth: dict[str, Any],
    true: list[Any],
    drafted: list[Any],
    match: dict[int, int],
) -> None:
    # A block of nothing but unknown exercises is written as comments: neither found nor too many.
    real = [block for block in blocks if any(item.exercise for item in block.items)]
    starts = nearest(truth["blocks"], real, BLOCK_NEAR, lambda t: t["start"], lambda d: d.start)
    total.counts["blocks found"] += len(starts)
    total.counts["blocks drafted"] += len(real)
    shared = Counter((true[i][0], drafted[j][0]) for i, j in match.items())
    which: dict[int, int] = {}
    for (i, j), _ in sorted(shared.items(), key=lambda pair: -pair[1]):
        if i not in which and j not in which.values():
            which[i] = j
    for i, entry in enumerate(truth["blocks"]):
        total.counts["blocks"] += 1
        _block(total, blocks[which[i]] if i in which else None, entry)
    for i in range(len(true) - 1):
        if i in match and i + 1 in match:
            total.counts["pairs"] += 1
            together = true[i][0] == true[i + 1][0]
            total.counts["pairs right"] += together == (drafted[match[i]][0] == drafted[match[i + 1]][0])


def _block(total: Score, block: FoundBlock | None, truth: dict[str, Any]) -> None:
    kinds = [truth["kind"], *truth.get("kind_also", [])]
    if block is not None:
        _told(total, "kind", block.kind in kinds, block.kind_confidence, KIND_BOUND)
    if truth["format"]:
        total.counts["formats"] += 1
        formats = [truth["format"], *truth.get("format_also", [])]
        if block is not None:
            _told(total, "format", block.format in formats, block.format_confidence, FORMAT_BOUND)
    right = {str(truth["sets"]), *(str(sets) for sets in truth.get("sets_also", []))}
    said = block is not None and block.sets is not None
    asked = not said or (block is not None and block.sets_confidence < SETS_BOUND)
    if said and block is not None:
        total.sure.append(("sets", block.sets_confidence, str(block.sets) in right))
    if truth["sets"] is not None:
        total.counts["sets"] += 1
        good = block is not None and str(block.sets) in right
        total.counts["sets open" if asked else "sets right" if good else "sets wrong"] += 1


def _told(total: Score, what: str, right: bool, confidence: float, bound: float) -> None:
    asked = confidence < bound
    total.counts[f"{what} open" if asked else f"{what} right" if right else f"{what} wrong"] += 1
    total.sure.append((what, confidence, right))


def summed(scores: Iterable[Score]) -> Score:
    """The sums of several recordings."""
    total = Score()
    for one in scores:
        total.add(one)
    return total
