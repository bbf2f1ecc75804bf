"""Learning what rests on the exercises found: blocks, turns, kinds, formats, doses and sets.

The tables see outlines (which words belong to which exercise and block). They are learned from the true
outlines and from those that are found, in which exercises are missing or too many, for these are what a
stranger's recording gives.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.candidates import BlockAmounts, dose_in, size
from sitegen.drafting.amounts.doses import side_features
from sitegen.drafting.amounts.sets import set_candidates, set_count
from sitegen.drafting.heard import Heard
from sitegen.drafting.learned_tables import LearnedModel
from sitegen.drafting.structure.blocks import (
    blocks_of,
    format_features,
    kind_features,
    split_features,
    turn_candidates,
)
from sitegen.drafting.structure.outline import OutlineBlock, OutlineItem, close_items
from sitegen.drafting.structure.session import ExercisesShown, shown_in
from sitegen.notation import Count, Dose
from sitegen.vocabulary import BLOCK_KINDS, FORMATS
from tests.captions.corpus import Recording
from tests.captions.fits import Row, choice, classes, linear
from tests.captions.score import NEAR, true_doses
from tests.captions.score import nearest as pairs_of
from tests.captions.ways import Lattices, scored

Tables = dict[str, dict[str, float]]


def passage_at(heard: Heard, seconds: float) -> int:
    """The passage that begins nearest to a time."""
    return min(range(len(heard.passages)), key=lambda p: abs(heard.passages[p].start - seconds))


def turn_passage(heard: Heard, seconds: float) -> int:
    """The passage that hands over at a time: which begins or ends nearest to it."""
    passages = heard.passages
    return min(
        range(len(passages)),
        key=lambda p: min(abs(passages[p].start - seconds), abs(passages[p].end - seconds)),
    )


def outline_of_times(
    heard: Heard, blocks: list[tuple[float, float | None, list[tuple[str | None, float]]]]
) -> list[OutlineBlock]:
    """The outline of known times: start and turn of each block, exercise and start of each item."""
    passages = heard.passages
    out = []
    for index, (start, turn, items) in enumerate(blocks):
        following = blocks[index + 1][0] if index + 1 < len(blocks) else None
        end = passages[passage_at(heard, following)].first if following is not None else len(heard.tokens)
        block = OutlineBlock(first=passages[passage_at(heard, start)].first, end=end)
        if turn is not None:
            block.turn = min(end, passages[turn_passage(heard, turn)].last + 1)
        for exercise, at in items:
            first = passages[passage_at(heard, at)].first
            block.items.append(OutlineItem(exercise=exercise, first=first, end=block.told, told=block.told))
        close_items(block)
        out.append(block)
    return out


@dataclass
class Prepared:
    """A recording heard with the tables learned so far."""

    recording: Recording
    heard: Heard
    lattices: Lattices | None = None
    """All its stretches, where talk acts are learned already."""
    shown: ExercisesShown | None = None
    """What is found in it, where the weights of stretches are learned."""

    def found(self) -> ExercisesShown:
        """What is found in it, its items as copies: blocks tell them where they end."""
        assert self.shown is not None
        return replace(self.shown, items=[replace(item) for item in self.shown.items])


@dataclass
class _Outline:
    """Blocks as they are or as they are found, each with its truth; None where nothing of it is right."""

    heard: Heard
    blocks: list[OutlineBlock]
    truths: list[dict[str, Any] | None]
    items: dict[int, dict[str, Any]]
    """The truth of items, by their first token."""


class _Rows:
    """Rows of one recording for one table."""

    def __init__(self, one: Prepared, weight: float) -> None:
        self.name, self.weight = one.recording.name, weight
        self.rows: list[Row] = []
        self.number = 0

    def add(self, features: Sequence[tuple[str, float]], wanted: Any) -> None:
        """Add a row to the choice that ``begin`` began last."""
        self.rows.append(Row(dict(features), wanted, self.name, self.weight, self.number))

    def begin(self) -> None:
        """Begin another choice."""
        self.number += 1


# -- where blocks begin and are handed over


def first_rows(prepared: Sequence[Prepared], by_hand: dict[str, float]) -> dict[str, list[Row]]:
    """The rows for beginnings of blocks and for turns, from the exercises that are found."""
    out: dict[str, list[Row]] = {"split": [], "handover": []}
    for one in prepared:
        split, turns = (_Rows(one, by_hand[one.recording.hand]) for _ in range(2))
        _split(split, one, one.found())
        _turns(turns, one, one.found())
        out["split"] += split.rows
        out["handover"] += turns.rows
    return out


def find(prepared: Sequence[Prepared], tables: Tables) -> None:
    """Find what is shown in recordings, with the weights of stretches."""
    for one in prepared:
        assert one.lattices is not None
        known = {name: weights.weights for name, weights in one.heard.model.tables.items()}
        model = LearnedModel({**known, "stretches": tables["stretches"], "calibration": {}})
        one.shown = shown_in(replace(one.heard, model=model), scored(one.lattices, tables["stretches"]))


def _block_of(one: Prepared, items: Sequence[OutlineItem]) -> list[int]:
    """For each item the true block that it belongs to: that of its exercise, else that of its time."""
    blocks = one.recording.truth["blocks"]
    true = [(b, item) for b, block in enumerate(blocks) for item in block["items"]]
    match = _matched(one.heard, [item for _, item in true], items)
    by_item = {found: true[i][0] for i, found in match.items()}
    out: list[int] = []
    for number, item in enumerate(items):
        at = one.heard.time(item.first)
        of_time = max((b for b, block in enumerate(blocks) if block["start"] <= at + 1), default=0)
        out.append(max(by_item.get(number, of_time), out[-1] if out else 0))
    return out


def _matched(heard: Heard, true: Sequence[dict[str, Any]], items: Sequence[OutlineItem]) -> dict[int, int]:
    return pairs_of(
        true,
        items,
        NEAR,
        lambda t: t["start"],
        lambda i: heard.time(i.first),
        lambda t, i: bool(t["exercise"] == i.exercise),
    )


def _split(rows: _Rows, one: Prepared, shown: ExercisesShown) -> None:
    acts, items = shown.acts, shown.items
    of = _block_of(one, items)
    count = 1
    for n in range(1, len(items)):
        features = split_features(one.heard, acts, items[n - 1], items[n], count)
        rows.add(features, of[n] != of[n - 1])
        count = 1 if of[n] != of[n - 1] else count + 1


_TURN_NEAR_S = 4.0
"""A passage whose end is so near the true turn is as right as the one that is nearest."""


def _turns(rows: _Rows, one: Prepared, shown: ExercisesShown) -> None:
    heard, acts, items = one.heard, shown.acts, shown.items
    of = _block_of(one, items)
    for n, item in enumerate(items):
        if n + 1 < len(items) and of[n + 1] == of[n]:
            continue
        end = items[n + 1].first if n + 1 < len(items) else len(heard.tokens)
        turn = one.recording.truth["blocks"][of[n]]["your_turn"]
        rows.begin()
        for place, features in turn_candidates(heard, acts, item.first, end):
            over = heard.tokens[heard.passages[place].last].end
            near = turn is not None and abs(over - turn) <= _TURN_NEAR_S
            rows.add(features, near or (turn is not None and place == turn_passage(heard, turn)))


# -- kinds, formats, doses and sets


def later_rows(
    prepared: Sequence[Prepared], tables: Tables, by_hand: dict[str, float]
) -> dict[str, list[Row]]:
    """The rows of all other tables, from true outlines and from those that are found."""
    out: dict[str, list[Row]] = {name: [] for name in _ROWS}
    for one in prepared:
        outlines = [_true(one), _found(one, tables)]
        for name, add in _ROWS.items():
            rows = _Rows(one, by_hand[one.recording.hand] / len(outlines))
            for outline in outlines:
                add(rows, outline)
            out[name] += rows.rows
    return out


def _true(one: Prepared) -> _Outline:
    truths = [b for b in one.recording.truth["blocks"] if b["items"]]
    times = [(b["start"], b["your_turn"], [(i["exercise"], i["start"]) for i in b["items"]]) for b in truths]
    blocks = outline_of_times(one.heard, times)
    items = {
        item.first: true
        for block, truth in zip(blocks, truths, strict=True)
        for item, true in zip(block.items, truth["items"], strict=True)
    }
    return _Outline(one.heard, blocks, list(truths), items)


def _found(one: Prepared, tables: Tables) -> _Outline:
    known = {name: weights.weights for name, weights in one.heard.model.tables.items()}
    heard = replace(one.heard, model=LearnedModel({**known, **tables}))
    shown = one.found()
    blocks = blocks_of(heard, shown.acts, shown.items)
    true = [(b, item) for b, block in enumerate(one.recording.truth["blocks"]) for item in block["items"]]
    found = [(b, item) for b, block in enumerate(blocks) for item in block.items]
    match = _matched(heard, [item for _, item in true], [item for _, item in found])
    items = {found[j][1].first: true[i][1] for i, j in match.items()}
    shared = Counter((found[j][0], true[i][0]) for i, j in match.items())
    truths: list[dict[str, Any] | None] = [None] * len(blocks)
    for (b, t), _ in sorted(shared.items(), key=lambda pair: -pair[1]):
        if truths[b] is None:
            truths[b] = one.recording.truth["blocks"][t]
    return _Outline(heard, blocks, truths, items)


def _known(outline: _Outline) -> Iterator[tuple[OutlineBlock, dict[str, Any]]]:
    for block, truth in zip(outline.blocks, outline.truths, strict=True):
        if truth is not None:
            yield block, truth


def _kinds(rows: _Rows, outline: _Outline) -> None:
    for block, truth in _known(outline):
        right = {truth["kind"], *truth.get("kind_also", ())}
        rows.add(kind_features(outline.heard, outline.blocks, block), right.intersection(BLOCK_KINDS))


def _formats(rows: _Rows, outline: _Outline) -> None:
    begin = outline.blocks[0].items[0].first if outline.blocks else 0
    for block, truth in _known(outline):
        if truth["format"]:
            work = any(
                a.kind == spoken.WORK and (block.first <= a.first < block.told or a.first < begin)
                for a in outline.heard.amounts
            )
            right = {truth["format"], *truth.get("format_also", ())}
            features = format_features(outline.heard, outline.blocks, block, work=work)
            rows.add(features, right.intersection(FORMATS))


def _amounts(outline: _Outline, block: OutlineBlock) -> BlockAmounts:
    return BlockAmounts(outline.heard, outline.blocks, block)


def _items(outline: _Outline) -> Iterator[tuple[OutlineBlock, OutlineItem, list[Dose]]]:
    for block in outline.blocks:
        for item in block.items:
            if item.first in outline.items:
                yield block, item, true_doses(outline.items[item.first])


def _doses(rows: _Rows, outline: _Outline) -> None:
    for block, item, doses in _items(outline):
        right = {size(dose) for dose in doses}
        rows.begin()
        for candidate in _amounts(outline, block).candidates(item):
            dose = dose_in(candidate.amount)
            rows.add(candidate.features, dose is not None and size(dose) in right)


def _sides(rows: _Rows, outline: _Outline) -> None:
    for block, item, doses in _items(outline):
        said = _amounts(outline, block)
        for candidate in said.candidates(item):
            dose = dose_in(candidate.amount)
            matching = [d for d in doses[:1] if dose and size(d) == size(dose)]
            if matching and not candidate.amount.sided:
                rows.add(side_features(said, item, candidate.amount), matching[0].per_side)
                break


def _sets(rows: _Rows, outline: _Outline) -> None:
    for block, truth in _known(outline):
        rows.begin()
        right = {str(truth["sets"]), *(str(s) for s in truth.get("sets_also", []))}
        for candidate in set_candidates(outline.heard, outline.blocks, block):
            said = str(Count(*set_count(candidate.amount)))
            rows.add(candidate.features, truth["sets"] is not None and said in right)


_ROWS: dict[str, Callable[[_Rows, _Outline], None]] = {
    "kind": _kinds,
    "format": _formats,
    "dose": _doses,
    "sides": _sides,
    "sets": _sets,
}

BLOCK_LEARNERS: dict[str, Callable[[Sequence[Row]], dict[str, float]]] = {
    "split": lambda rows: linear(rows, fewest=4, strength=0.1, least=0.02),
    "handover": lambda rows: choice(rows, fewest=2, strength=2.0, least=0.0),
    "kind": lambda rows: classes(rows, fewest=5, strength=0.2, least=0.06),
    "format": lambda rows: classes(rows, fewest=3, strength=0.3, least=0.06),
    "dose": lambda rows: choice(rows, fewest=4, strength=0.35),
    "sides": lambda rows: linear(rows, fewest=4, strength=0.15, least=0.03),
    "sets": lambda rows: choice(rows, fewest=3),
}


def learn(rows: dict[str, list[Row]]) -> Tables:
    """The tables of some rows."""
    return {name: BLOCK_LEARNERS[name](some) for name, some in rows.items()}
