"""Learning the weights of :mod:`sitegen.drafting` from recordings: ``python -m tests.captions.train``.

What is learned, in this order, each from what comes before: how rare words are; where sentences end; which
words go with which attributes of exercises; what passages do (talk acts); the weights of stretches; where
blocks begin and are handed over; kinds, formats, doses, sides and sets; how sure all these are.

Weights that rest on others are learned from scores of recordings of *other* hands than those that the
others were learned from, so that they trust them no more than a stranger's recording deserves; and what
rests on the exercises found is learned from what is found, mistakes included (``outlines.py``). How sure a
finding is (calibration) is learned from findings in recordings of hands that its table was not learned from.

Needs numpy, scipy and scikit-learn (``pip install '.[learn]'``); the package itself does not.
"""

import math
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from sklearn.linear_model import LogisticRegression

from sitegen.drafting.heard import Heard, hear
from sitegen.drafting.learned_tables import DATA, LearnedModel
from sitegen.drafting.structure import acts as talk_acts
from sitegen.drafting.structure.acts import acts_of
from sitegen.drafting.structure.arcs import (
    LABEL_FEATURES,
    NEW,
    SPAN_FEATURES,
    TALK_FEATURES,
    places_of,
    spans_of,
    talk_features,
)
from sitegen.drafting.structure.session import all_found
from tests.captions.corpus import Recording, hands, recordings_of, spans
from tests.captions.fits import Row, hand_weights, linear
from tests.captions.outlines import Prepared, find, first_rows, later_rows, learn, turn_passage
from tests.captions.score import score
from tests.captions.train_words import associations, rarity, sentences
from tests.captions.ways import NAMES, Lattices, learn_stretches

Tables = dict[str, dict[str, float]]
Log = Callable[[str], None]

START_NEAR_S = 4.0
"""A stretch may begin so many seconds from the true start and still be the right one."""


_LEAST_TELLING = 0.12
"""Smaller weights of talk acts are dropped: without them as much is found on hands left out, and the tables
are a fifth smaller.
"""

# -- talk acts


def nearest(heard: Heard, at: float) -> int:
    """The passage whose start is nearest to a time."""
    return min(range(len(heard.passages)), key=lambda p: abs(heard.passages[p].start - at))


def wanted_passages(heard: Heard, truth: dict[str, Any], act: str) -> dict[int, bool]:
    """For the passages that tell: whether they do the act."""
    passages = heard.passages
    if act == talk_acts.START:
        true = {nearest(heard, start) for start, _, _ in spans(truth)}
    elif act == talk_acts.BLOCK:
        true = {nearest(heard, block["start"]) for block in truth["blocks"]}
    elif act == talk_acts.TURN:
        turns = [b["your_turn"] for b in truth["blocks"] if b["your_turn"] is not None]
        true = {turn_passage(heard, t) for t in turns}
    else:
        shown = spans(truth)
        out = {}
        for p, passage in enumerate(passages):
            middle = (passage.start + passage.end) / 2
            inside = [(s, e) for s, e, _ in shown if s - 0.5 <= middle < e]
            # The end of a group's last exercise is a recap whose beginning nobody marks.
            if inside and middle > inside[0][0] + 0.75 * (inside[0][1] - inside[0][0]):
                continue
            out[p] = bool(inside)
        return out
    return {p: p in true for p in range(len(passages))}


def learn_act(prepared: Sequence[Prepared], act: str) -> dict[str, float]:
    rows = []
    by_hand = hand_weights([one.recording for one in prepared])
    for one in prepared:
        for place, true in wanted_passages(one.heard, one.recording.truth, act).items():
            features = dict(talk_acts.features(one.heard, act, place))
            rows.append(Row(features, true, one.recording.name, by_hand[one.recording.hand]))
    return linear(rows, least=_LEAST_TELLING)


def learn_shown(prepared: Sequence[Prepared]) -> dict[str, float]:
    """Whether a mention of a whole name is made while its exercise is shown."""
    rows = []
    by_hand = hand_weights([one.recording for one in prepared])
    for one in prepared:
        shown = spans(one.recording.truth)
        for mention in one.heard.mentions:
            if mention.cover < 0.6 or not mention.best:
                continue
            at = one.heard.time(mention.first)
            features = dict(talk_acts.shown_features(one.heard, mention))
            right = any(i["exercise"] == mention.exercise and s - 2 <= at < e for s, e, i in shown)
            rows.append(Row(features, right, one.recording.name, by_hand[one.recording.hand]))
    return linear(rows, least=_LEAST_TELLING)


# -- stretches


Labelled = tuple[int, int, str]
"""First passage of an arc, the passage where it ends, its exercise."""

_OF_ARCS = len(SPAN_FEATURES) + len(LABEL_FEATURES)


def lattices_of(one: Prepared) -> Lattices:
    heard = one.heard
    acts, places = acts_of(heard), places_of(heard)
    arcs: list[Labelled] = []
    rows_of_arcs: list[tuple[float, ...]] = []
    for span in spans_of(heard, acts, places):
        for label, own in span.labels:
            arcs.append((span.first, span.end, label))
            rows_of_arcs.append(span.features + own)
        if span.new is not None:
            arcs.append((span.first, span.end, NEW))
            rows_of_arcs.append((0.0,) * _OF_ARCS + span.new)
    features = np.zeros((len(arcs), len(NAMES)), dtype=np.float32)
    for row, values in enumerate(rows_of_arcs):
        features[row, : len(values)] = values
    rows = talk_features(heard, acts, places)
    talk = np.zeros((len(rows), len(NAMES)), dtype=np.float32)
    talk[:, -len(TALK_FEATURES) :] = rows
    first, end = np.array([first for first, _, _ in arcs]), np.array([end for _, end, _ in arcs])
    right, right_talk = allowed(heard, arcs, one.recording.truth)
    return Lattices(first, end, [label for *_, label in arcs], features, talk, right, right_talk)


def allowed(heard: Heard, arcs: Sequence[Labelled], truth: dict[str, Any]) -> tuple[np.ndarray, np.ndarray]:
    """Arcs that agree with the truth (right exercise, start near, no further than the item goes), and
    passages that are no other talk because every such arc of an item has them.
    """
    shown = spans(truth)
    starts = [p.start for p in heard.passages]
    ends = [*starts[1:], heard.passages[-1].end]
    right, talk = np.zeros(len(arcs), dtype=bool), np.ones(len(starts), dtype=bool)
    for start, end, item in shown:
        closest = nearest(heard, start)
        own = []
        for number, (arc_first, arc_end, label) in enumerate(arcs):
            near = abs(starts[arc_first] - start) <= START_NEAR_S or arc_first == closest
            if near and label == (item["exercise"] or NEW):
                # At least half of what is said belongs to it; the rest may be a recap.
                enough = start + 0.5 * (end - start) <= ends[arc_end - 1] <= end + START_NEAR_S + 1
                own += [number] if enough else []
        if own:
            right[own] = True
            talk[max(arcs[n][0] for n in own) : min(arcs[n][1] for n in own)] = False
    return right, talk


# -- blocks and amounts


# -- all of it


def base_tables(recordings: Sequence[Recording]) -> Tables:
    """What is learned before talk acts."""
    tables: Tables = {"rarity": rarity(recordings), "sentences": sentences(recordings), "associations": {}}
    tables["associations"] = associations(recordings, LearnedModel(tables))
    return tables


def act_tables(recordings: Sequence[Recording]) -> Tables:
    """Base tables and talk acts."""
    tables = base_tables(recordings)
    model = LearnedModel(tables)
    prepared = [Prepared(r, hear(r.captions, r.series, model)) for r in recordings]
    for act in talk_acts.ACTS:
        tables[act] = learn_act(prepared, act)
    tables[talk_acts.SHOWN] = learn_shown(prepared)
    return tables


@dataclass
class Fold:
    """One hand, heard with tables learned from all the others."""

    hand: str
    tables: Tables
    prepared: list[Prepared]


def folds(recordings: Sequence[Recording], log: Log) -> list[Fold]:
    """The recordings by hand, each with the talk acts of the other hands."""
    out = []
    for hand in sorted({r.hand for r in recordings}):
        tables = act_tables([r for r in recordings if r.hand != hand])
        model = LearnedModel(tables)
        prepared = [Prepared(r, hear(r.captions, r.series, model)) for r in recordings if r.hand == hand]
        for one in prepared:
            one.lattices = lattices_of(one)
        out.append(Fold(hand, tables, prepared))
        log(f"talk acts without hand {hand}")
    return out


def late_tables(parts: Sequence[Fold], log: Log) -> Tables:
    """What is learned from the scores of talk acts: stretches, blocks, amounts, calibration."""
    prepared = [one for fold in parts for one in fold.prepared]
    by_hand = hand_weights([one.recording for one in prepared], _MANY_COUNT_MORE)
    lattices = [one.lattices for one in prepared if one.lattices is not None]
    tables = {"stretches": learn_stretches(lattices, [by_hand[one.recording.hand] for one in prepared])}
    for name in ("exercise: bias", "new: bias"):
        tables["stretches"][name] += BOLDER
    log("stretches")
    find(prepared, tables)
    rows = first_rows(prepared, by_hand)
    tables |= learn(rows)
    rows |= later_rows(prepared, tables, by_hand)
    tables |= learn({name: rows[name] for name in rows if name not in tables})
    log("blocks, amounts")
    tables["calibration"] = calibration(parts, tables, rows)
    log("calibration")
    return tables


def train(recordings: Sequence[Recording], log: Log = lambda _: None) -> Tables:
    """All tables."""
    return act_tables(recordings) | late_tables(folds(recordings, log), log)


def left_out(wanted: Sequence[str], together: int, log: Log = lambda _: None) -> Iterator[tuple[str, Tables]]:
    """For each of the wanted hands all tables learned without it; so many hands are left out at a time."""
    parts = folds([recording for hand in hands() for recording in recordings_of(hand)], log)
    groups = -(-len(parts) // together)
    for group in range(groups):
        left = [fold for fold in parts[group::groups] if fold.hand in wanted]
        if left:
            late = late_tables([fold for n, fold in enumerate(parts) if n % groups != group], log)
            yield from ((fold.hand, fold.tables | late) for fold in left)


_MANY_COUNT_MORE = 0.5
"""The own recordings are the only ones in which an exercise is named and told in a few words; were they one
hand of six in the weights of stretches, such speakers would be missed.
"""

BOLDER = 1.9
"""Added to the bias of exercises: one left out costs the trainer more than one to delete. Chosen on hands
left out, where more would still be found with 2.7; but then the precision of the own recordings falls
below 0.93.
"""


CALIBRATED = ("item", "dose", "sets", "format", "kind", "turn")


_GROUPS = 4
"""Groups of hands that are left out together: learning without each hand by itself would take twice as long,
for two numbers of each kind of finding.
"""


def calibration(parts: Sequence[Fold], tables: Tables, rows: dict[str, list[Row]]) -> dict[str, float]:
    """Platt's scaling of probabilities, from findings in recordings of hands left out of the learning.

    The tables of blocks and amounts have thousands of weights and are surer of what they have seen: each
    hand's recordings are drafted with tables of the other hands. The few weights of stretches need no such
    care.
    """
    seen: dict[str, list[tuple[float, bool, float]]] = defaultdict(list)
    by_hand = hand_weights([one.recording for fold in parts for one in fold.prepared])
    for group in range(min(_GROUPS, len(parts))):
        left = [(fold, one) for fold in parts[group::_GROUPS] for one in fold.prepared]
        own = {one.recording.name for _, one in left}
        others = {name: [row for row in some if row.group not in own] for name, some in rows.items()}
        late = {"stretches": tables["stretches"], "calibration": {}} | learn(others)
        for fold, one in left:
            heard = replace(one.heard, model=LearnedModel(fold.tables | late))
            for what, probability, right in score(all_found(heard, one.found()), one.recording.truth).sure:
                seen[what].append((probability, right, by_hand[fold.hand]))
    out = {}
    for what in CALIBRATED:
        odds = [[math.log(max(1e-4, p) / max(1e-4, 1 - p))] for p, _, _ in seen[what]]
        model = LogisticRegression(C=10.0).fit(
            odds, [right for _, right, _ in seen[what]], sample_weight=[w for *_, w in seen[what]]
        )
        out[f"{what}: slope"] = float(model.coef_[0][0])
        out[f"{what}: bias"] = float(model.intercept_[0])
    return out


# -- writing them

FILES = {
    "words.tsv": ("rarity", "sentences", "associations"),
    "talk.tsv": (*talk_acts.ACTS, talk_acts.SHOWN),
    "stretches.tsv": ("stretches", "calibration"),
    "amounts.tsv": ("dose", "sides", "sets"),
    "blocks.tsv": ("split", "handover", "kind", "format"),
}


def write(tables: Tables, recordings: Sequence[Recording]) -> None:
    """Write the tables into the package, with what they were learned from."""
    counts = Counter(recording.hand for recording in recordings)
    learned_from = ", ".join(f"{count} of hand {hand}" for hand, count in sorted(counts.items()))
    for name, parts in FILES.items():
        lines = [
            "# Made by python -m tests.captions.train; do not edit. Columns: table, feature, weight.",
            f"# Learned from recordings in tests/captions: {learned_from}.",
        ]
        for part in parts:
            for feature, weight in sorted(tables[part].items()):
                lines.append(f"{part}\t{feature}\t{weight:.3g}")
        (DATA / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


def main() -> int:
    recordings = [recording for hand in hands() for recording in recordings_of(hand)]
    write(train(recordings, lambda what: print(what, file=sys.stderr)), recordings)
    return 0


if __name__ == "__main__":
    sys.exit(main())
