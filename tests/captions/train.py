"""Learning the weights of :mod:`sitegen.drafting` from recordings: ``python -m tests.captions.train``.

What is learned, in this order, each from what comes before: how rare words are; where sentences end; which
words go with which attributes of exercises; what passages do (talk acts); the weights of stretches; which
amount is the dose, and whether it is for each side; where blocks begin. Weights that rest on others
(stretches on talk acts) are learned from scores of recordings of *other* hands than those that the acts
were learned from, so that they trust them no more than a stranger's recording deserves.

Needs numpy, scipy and scikit-learn (``pip install '.[learn]'``); the package itself does not.
"""

import math
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from scipy.optimize import minimize
from sklearn.feature_extraction import DictVectorizer
from sklearn.linear_model import LogisticRegression

from sitegen.drafting.amounts import spoken
from sitegen.drafting.amounts.choose import dose_candidates, dose_in, set_candidates, set_count, side_features
from sitegen.drafting.heard import Heard, hear
from sitegen.drafting.names.cards import library_of
from sitegen.drafting.names.evidence import EXPECTED
from sitegen.drafting.structure import acts as talk_acts
from sitegen.drafting.structure.acts import acts_of
from sitegen.drafting.structure.arcs import (
    ARC_FEATURES,
    NEW,
    NEW_FEATURES,
    TALK_FEATURES,
    Arc,
    arcs_of,
    places_of,
    talk_features,
)  # fmt: skip
from sitegen.drafting.structure.blocks import format_features, kind_features, split_features, turn_candidates
from sitegen.drafting.structure.outline import OutlineBlock, outline_of_times, turn_passage
from sitegen.drafting.structure.session import session_of
from sitegen.drafting.tables import DATA, Model
from sitegen.drafting.transcript.passages import boundary_features
from sitegen.drafting.transcript.stems import stem
from sitegen.drafting.transcript.words import stream_of
from sitegen.notation import Count, Dose, NotationError
from tests.captions.corpus import Recording, hands, recordings_of

Tables = dict[str, dict[str, float]]
Log = Callable[[str], None]

START_NEAR_S = 4.0
"""A stretch may begin so many seconds from the true start and still be the right one."""


# -- words


def rarity(recordings: Sequence[Recording]) -> dict[str, float]:
    """Of each stem how rare it is: 0 in all recordings, 1 in none."""
    use: Counter[str] = Counter()
    for recording in recordings:
        use.update({stem(t.text) for t in stream_of(recording.captions.cues).tokens})
    n = len(recordings)
    return {
        word: math.log((n + 1) / (count + 0.5)) / math.log(n + 1)
        for word, count in use.items()
        if count >= 0.06 * n
    }


def linear(
    rows: Sequence[Iterable[tuple[str, float]]],
    wanted: Sequence[bool],
    groups: Sequence[str],
    *,
    fewest: int = 4,
    strength: float = 0.15,
    least: float = 0.0,
    weights: Sequence[float] | None = None,
) -> dict[str, float]:
    """A logistic regression over named features that occur in ``fewest`` or more recordings."""
    seen: dict[str, set[str]] = defaultdict(set)
    for row, group in zip(rows, groups, strict=True):
        for name, _ in row:
            seen[name].add(group)
    kept = [
        {name: value for name, value in row if len(seen[name]) >= fewest and name != "bias"} for row in rows
    ]
    vectorizer = DictVectorizer()
    matrix = vectorizer.fit_transform(kept)
    model = LogisticRegression(C=strength, max_iter=500)
    model.fit(matrix, np.array(wanted), sample_weight=None if weights is None else np.array(weights))
    out = {
        name: float(weight)
        for name, weight in zip(vectorizer.get_feature_names_out(), model.coef_[0], strict=True)
        if abs(weight) >= least
    }
    return out | {"bias": float(model.intercept_[0])}


def hand_weights(recordings: Sequence[Recording]) -> dict[str, float]:
    """What a recording of each hand counts: all hands the same together.

    A stranger is one more hand, not one more recording of a known hand.
    """
    counts = Counter(recording.hand for recording in recordings)
    raw = {hand: 1 / count for hand, count in counts.items()}
    mean = sum(raw[r.hand] for r in recordings) / len(recordings)
    return {hand: value / mean for hand, value in raw.items()}


def choice(
    rows: Sequence[Iterable[tuple[str, float]]],
    wanted: Sequence[bool],
    groups: Sequence[str],
    choices: Sequence[int],
    *,
    weights: Sequence[float],
    fewest: int = 4,
    strength: float = 0.5,
    least: float = 0.03,
) -> dict[str, float]:
    """A conditional logit (McFadden 1974): of the rows of one choice the wanted ones, or none, is chosen.

    ``choices`` numbers the choice that each row belongs to; not to choose has the score 0.
    """
    seen: dict[str, set[str]] = defaultdict(set)
    for row, group in zip(rows, groups, strict=True):
        for name, _ in row:
            seen[name].add(group)
    kept = [{name: value for name, value in row if len(seen[name]) >= fewest} for row in rows]
    vectorizer = DictVectorizer()
    matrix = vectorizer.fit_transform(kept).tocsr()
    number, right = np.array(choices), np.array(wanted)
    size = number.max() + 1
    weight = np.zeros(size)
    weight[number] = np.array(weights)
    none_right = np.ones(size, dtype=bool)
    none_right[number[right]] = False

    def loss(w: np.ndarray) -> tuple[float, np.ndarray]:
        scores = np.clip(matrix @ w, -30, 30)
        odds = np.exp(scores)
        total = 1 + np.bincount(number, odds, size)
        good = none_right + np.bincount(number, odds * right, size)
        value = float((weight * (np.log(total) - np.log(good))).sum()) + 0.5 / strength * float(w @ w)
        pull = weight[number] * odds * (1 / total[number] - right / good[number])
        return value, matrix.T @ pull + w / strength

    result = minimize(loss, np.zeros(matrix.shape[1]), jac=True, method="L-BFGS-B", options={"maxiter": 200})
    names = vectorizer.get_feature_names_out()
    return {name: float(w) for name, w in zip(names, result.x, strict=True) if abs(w) >= least}


def sentences(recordings: Sequence[Recording]) -> dict[str, float]:
    """Where a sentence ends, from the recordings in which somebody marks it."""
    rows, wanted, groups = [], [], []
    for recording in recordings:
        stream = stream_of(recording.captions.cues)
        if not stream.punctuated:
            continue
        for before, after in zip(stream.tokens, stream.tokens[1:], strict=False):
            rows.append(boundary_features(before, after))
            wanted.append(after.break_before >= 2)
            groups.append(recording.name)
    return linear(rows, wanted, groups, strength=1.0, least=0.15)


def associations(recordings: Sequence[Recording], model: Model) -> dict[str, float]:
    """Which words go with which attributes of exercises, as shrunken log-odds."""
    of_word: Counter[str] = Counter()
    of_attribute: Counter[str] = Counter()
    both: Counter[tuple[str, str]] = Counter()
    total = 0
    for recording in recordings:
        library = library_of(recording.series, model)
        tokens = stream_of(recording.captions.cues).tokens
        for start, end, item in spans(recording.truth):
            card = library.cards.get(item["exercise"] or "")
            if card is None:
                continue
            words = {stem(t.text) for t in tokens if start - 0.5 <= t.start < end and t.value is None}
            attributes = {a for kind in card.attributes for a in kind}
            total += 1
            of_word.update(words)
            of_attribute.update(attributes)
            both.update((a, w) for a in attributes for w in words)
    out = {}
    expected: dict[str, float] = defaultdict(float)
    for (attribute, word), count in both.items():
        if count < 3 or of_attribute[attribute] < 3:
            continue
        usual = of_word[word] / total
        # Six stretches' worth of doubt that the word goes with the attribute more often than with others.
        share = (count + 6 * usual) / (of_attribute[attribute] + 6)
        weight = math.log(share / usual)
        if weight >= 0.4:
            out[f"{attribute}: {word}"] = weight
            expected[attribute] += of_word[word] / sum(of_word.values()) * weight
    return out | {f"{attribute}: {EXPECTED}": value for attribute, value in expected.items()}


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


@dataclass
class Prepared:
    """A recording heard with the tables learned so far."""

    recording: Recording
    heard: Heard


def learn_act(prepared: Sequence[Prepared], act: str) -> dict[str, float]:
    rows, wanted, groups, weights = [], [], [], []
    by_hand = hand_weights([one.recording for one in prepared])
    for one in prepared:
        for place, true in wanted_passages(one.heard, one.recording.truth, act).items():
            rows.append(talk_acts.features(one.heard, act, place))
            wanted.append(true)
            groups.append(one.recording.name)
            weights.append(by_hand[one.recording.hand])
    return linear(rows, wanted, groups, least=0.04, weights=weights)


def learn_shown(prepared: Sequence[Prepared]) -> dict[str, float]:
    """Whether a mention of a whole name is made while its exercise is shown."""
    rows, wanted, groups, weights = [], [], [], []
    by_hand = hand_weights([one.recording for one in prepared])
    for one in prepared:
        shown = spans(one.recording.truth)
        for mention in one.heard.mentions:
            if mention.cover < 0.6 or not mention.best:
                continue
            at = one.heard.time(mention.first)
            rows.append(talk_acts.shown_features(one.heard, mention))
            wanted.append(any(i["exercise"] == mention.exercise and s - 2 <= at < e for s, e, i in shown))
            groups.append(one.recording.name)
            weights.append(by_hand[one.recording.hand])
    return linear(rows, wanted, groups, least=0.04, weights=weights)


# -- stretches


@dataclass
class Lattices:
    """Arcs and other talk of one recording as matrices, and which arcs the truth allows."""

    length: int
    labels: list[str]
    first: np.ndarray
    end: np.ndarray
    features: np.ndarray
    """All features side by side: those of exercises, of new exercises, of other talk."""
    talk: np.ndarray
    right: np.ndarray
    right_talk: np.ndarray
    by_end: list[np.ndarray]
    by_first: list[np.ndarray]


NAMES = (
    [f"exercise: {name}" for name in ARC_FEATURES]
    + [f"new: {name}" for name in NEW_FEATURES]
    + [f"talk: {name}" for name in TALK_FEATURES]
)


def lattice(one: Prepared) -> Lattices:
    heard = one.heard
    acts, places = acts_of(heard), places_of(heard)
    arcs = arcs_of(heard, acts, places)
    features = np.zeros((len(arcs), len(NAMES)), dtype=np.float32)
    for row, arc in enumerate(arcs):
        begin = len(ARC_FEATURES) if arc.label == NEW else 0
        features[row, begin : begin + len(arc.features)] = arc.features
    rows = talk_features(heard, acts, places)
    talk = np.zeros((len(rows), len(NAMES)), dtype=np.float32)
    talk[:, -len(TALK_FEATURES) :] = rows
    first, end = np.array([arc.first for arc in arcs]), np.array([arc.end for arc in arcs])
    right, right_talk = allowed(heard, arcs, one.recording.truth)
    return Lattices(
        length=len(heard.passages),
        labels=[arc.label for arc in arcs],
        first=first,
        end=end,
        features=features,
        talk=talk,
        right=right,
        right_talk=right_talk,
        by_end=[np.flatnonzero(end == e) for e in range(len(heard.passages) + 1)],
        by_first=[np.flatnonzero(first == f) for f in range(len(heard.passages) + 1)],
    )


def allowed(heard: Heard, arcs: Sequence[Arc], truth: dict[str, Any]) -> tuple[np.ndarray, np.ndarray]:
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
        for number, arc in enumerate(arcs):
            near = abs(starts[arc.first] - start) <= START_NEAR_S or arc.first == closest
            if near and arc.label == (item["exercise"] or NEW):
                # At least half of what is said belongs to it; the rest may be a recap.
                enough = start + 0.5 * (end - start) <= ends[arc.end - 1] <= end + START_NEAR_S + 1
                own += [number] if enough else []
        if own:
            right[own] = True
            talk[max(arcs[n].first for n in own) : min(arcs[n].end for n in own)] = False
    return right, talk


NEVER = -1e6


def log_sum(values: np.ndarray) -> float:
    most = values.max()
    return float(most + math.log(np.exp(values - most).sum()))


def sums(lat: Lattices, scores: np.ndarray, talk: np.ndarray) -> tuple[float, np.ndarray, np.ndarray]:
    """log Z, and the expected number of times that each arc and each passage of talk is on the way."""
    n = lat.length
    forward = np.zeros(n + 1)
    for e in range(1, n + 1):
        terms = [forward[e - 1] + talk[e - 1]]
        idx = lat.by_end[e]
        if len(idx):
            values = forward[lat.first[idx]] + scores[idx]
            forward[e] = log_sum(np.append(values, terms[0]))
        else:
            forward[e] = terms[0]
    backward = np.zeros(n + 1)
    for f in range(n - 1, -1, -1):
        first = backward[f + 1] + talk[f]
        idx = lat.by_first[f]
        backward[f] = log_sum(np.append(backward[lat.end[idx]] + scores[idx], first)) if len(idx) else first
    total = forward[n]
    arcs = (
        np.exp(np.minimum(0, forward[lat.first] + scores + backward[lat.end] - total))
        if len(scores)
        else scores
    )
    talks = np.exp(np.minimum(0, forward[:-1] + talk + backward[1:] - total))
    return total, arcs, talks


def learn_stretches(
    lattices: Sequence[Lattices], weights: Sequence[float], strength: float = 0.02
) -> dict[str, float]:
    """Maximum conditional likelihood of the true ways, with a Gaussian prior on the weights."""

    def loss(w: np.ndarray) -> tuple[float, np.ndarray]:
        value, slope = 0.5 * strength * len(lattices) * float(w @ w), strength * len(lattices) * w
        narrow = w.astype(np.float32)
        for lat, weight in zip(lattices, weights, strict=True):
            scores = (lat.features @ narrow).astype(float)
            talk = (lat.talk @ narrow).astype(float)
            total, arcs, talks = sums(lat, scores, talk)
            true, true_arcs, true_talks = sums(
                lat, np.where(lat.right, scores, NEVER), np.where(lat.right_talk, talk, NEVER)
            )
            value += weight * (total - true)
            surplus = (arcs - true_arcs).astype(np.float32), (talks - true_talks).astype(np.float32)
            slope = slope + weight * (surplus[0] @ lat.features + surplus[1] @ lat.talk)
        return value, slope

    start = np.zeros(len(NAMES))
    start[NAMES.index("exercise: bias")] = -4
    start[NAMES.index("new: bias")] = -6
    result = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": 60})
    return {name: float(weight) for name, weight in zip(NAMES, result.x, strict=True)}


# -- blocks and amounts


def outline(one: Prepared) -> list[OutlineBlock]:
    """The true outline of a recording."""
    blocks = [
        (b["start"], b["your_turn"], [(i["exercise"], i["start"]) for i in b["items"]])
        for b in one.recording.truth["blocks"]
        if b["items"]
    ]
    return outline_of_times(one.heard, blocks)


def true_blocks(one: Prepared) -> list[tuple[OutlineBlock, dict[str, Any]]]:
    """The true outline with the truth beside it."""
    truth = [b for b in one.recording.truth["blocks"] if b["items"]]
    return list(zip(outline(one), truth, strict=True))


class Rows:
    """Rows of a learning problem with their recordings."""

    def __init__(self, prepared: Sequence[Prepared]) -> None:
        self.by_hand = hand_weights([one.recording for one in prepared])
        self.rows: list[list[tuple[str, float]]] = []
        self.wanted: list[Any] = []
        self.groups: list[str] = []
        self.weights: list[float] = []
        self.choices: list[int] = []

    def add(
        self, one: Prepared, features: list[tuple[str, float]], wanted: Any, choice_number: int = 0
    ) -> None:
        self.choices.append(choice_number)
        self.rows.append(features)
        self.wanted.append(wanted)
        self.groups.append(one.recording.name)
        self.weights.append(self.by_hand[one.recording.hand])

    def linear(self, **how: Any) -> dict[str, float]:
        return linear(self.rows, self.wanted, self.groups, weights=self.weights, **how)

    def choice(self, **how: Any) -> dict[str, float]:
        return choice(self.rows, self.wanted, self.groups, self.choices, weights=self.weights, **how)


def classes(rows: Rows, *, fewest: int, strength: float) -> dict[str, float]:
    """A regression for each class against all others."""
    out = {}
    for wanted in sorted(set(rows.wanted)):
        table = linear(
            rows.rows,
            [w == wanted for w in rows.wanted],
            rows.groups,
            fewest=fewest,
            strength=strength,
            least=0.04,
            weights=rows.weights,
        )
        out.update({f"{wanted}: {name}": weight for name, weight in table.items()})
    return out


def learn_split(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows = Rows(prepared)
    for one in prepared:
        acts = acts_of(one.heard)
        blocks = outline(one)
        for index, block in enumerate(blocks):
            for number, item in enumerate(block.items):
                if number:
                    before = block.items[number - 1]
                elif index:
                    before = blocks[index - 1].items[-1]
                else:
                    continue
                count = number or len(blocks[index - 1].items)
                rows.add(one, split_features(one.heard, acts, before, item, count), number == 0)
    return rows.linear(fewest=2, strength=1.0)


def learn_handover(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows, number = Rows(prepared), 0
    for one in prepared:
        acts, blocks = acts_of(one.heard), outline(one)
        for index, block in enumerate(blocks):
            last = block.items[-1].first
            end = blocks[index + 1].items[0].first if index + 1 < len(blocks) else len(one.heard.tokens)
            number += 1
            for place, features in turn_candidates(one.heard, acts, last, end):
                right = block.turn is not None and one.heard.passages[place].last + 1 == block.turn
                rows.add(one, features, right, number)
    return rows.choice(fewest=2, strength=2.0, least=0.0)


def learn_kind(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows = Rows(prepared)
    for one in prepared:
        blocks = true_blocks(one)
        for block, truth in blocks:
            rows.add(one, kind_features(one.heard, [b for b, _ in blocks], block), truth["kind"])
    return classes(rows, fewest=5, strength=0.2)


def learn_format(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows = Rows(prepared)
    for one in prepared:
        blocks = true_blocks(one)
        for block, truth in blocks:
            if truth["format"]:
                work = any(
                    a.kind == spoken.WORK
                    and (block.first <= a.first < block.told or a.first < blocks[0][0].first)
                    for a in one.heard.amounts
                )
                features = format_features(one.heard, [b for b, _ in blocks], block, work=work)
                rows.add(one, features, truth["format"])
    return classes(rows, fewest=3, strength=0.3)


def true_doses(truth: dict[str, Any]) -> list[Dose]:
    """The doses that count as right."""
    out = []
    for text in [truth.get("dose"), *truth.get("dose_also", [])]:
        try:
            if text:
                out.append(Dose.parse(str(text)))
        except NotationError:
            continue
    return out


def size(dose: Dose) -> tuple[str, int, int, str]:
    """What of a dose is compared before sides are."""
    return dose.kind, dose.low, dose.high, dose.unit


def learn_dose(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows, number = Rows(prepared), 0
    for one in prepared:
        pairs = true_blocks(one)
        for block, truth in pairs:
            for item, true in zip(block.items, truth["items"], strict=True):
                right = {size(d) for d in true_doses(true)}
                number += 1
                for candidate in dose_candidates(one.heard, [b for b, _ in pairs], block, item):
                    dose = dose_in(candidate.amount)
                    rows.add(one, candidate.features, dose is not None and size(dose) in right, number)
    return rows.choice()


def learn_sides(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows = Rows(prepared)
    for one in prepared:
        pairs = true_blocks(one)
        for block, truth in pairs:
            for item, true in zip(block.items, truth["items"], strict=True):
                for candidate in dose_candidates(one.heard, [b for b, _ in pairs], block, item):
                    dose = dose_in(candidate.amount)
                    matching = [d for d in true_doses(true)[:1] if dose and size(d) == size(dose)]
                    if matching and not candidate.amount.sided:
                        rows.add(one, side_features(one.heard, item, candidate.amount), matching[0].per_side)
                        break
    return rows.linear(fewest=4, strength=0.15, least=0.03)


def learn_sets(prepared: Sequence[Prepared]) -> dict[str, float]:
    rows, number = Rows(prepared), 0
    for one in prepared:
        pairs = true_blocks(one)
        for block, truth in pairs:
            number += 1
            right = {str(truth["sets"]), *(str(s) for s in truth.get("sets_also", []))}
            for candidate in set_candidates(one.heard, [b for b, _ in pairs], block):
                said = str(Count(*set_count(candidate.amount)))
                rows.add(one, candidate.features, truth["sets"] is not None and said in right, number)
    return rows.choice(fewest=3)


BLOCK_LEARNERS = {
    "split": learn_split,
    "handover": learn_handover,
    "kind": learn_kind,
    "format": learn_format,
    "dose": learn_dose,
    "sides": learn_sides,
    "sets": learn_sets,
}


# -- all of it


def base_tables(recordings: Sequence[Recording]) -> Tables:
    """What is learned before talk acts."""
    tables: Tables = {"rarity": rarity(recordings), "sentences": sentences(recordings), "associations": {}}
    tables["associations"] = associations(recordings, Model(tables))
    return tables


def act_tables(recordings: Sequence[Recording]) -> Tables:
    """Base tables and talk acts."""
    tables = base_tables(recordings)
    model = Model(tables)
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
    lattices: list[Lattices]


def folds(recordings: Sequence[Recording], log: Log) -> list[Fold]:
    """The recordings by hand, each with the talk acts of the other hands."""
    out = []
    for hand in sorted({r.hand for r in recordings}):
        tables = act_tables([r for r in recordings if r.hand != hand])
        model = Model(tables)
        prepared = [Prepared(r, hear(r.captions, r.series, model)) for r in recordings if r.hand == hand]
        out.append(Fold(hand, tables, prepared, [lattice(one) for one in prepared]))
        log(f"talk acts without hand {hand}")
    return out


def late_tables(parts: Sequence[Fold], log: Log) -> Tables:
    """What is learned from the scores of talk acts: stretches, blocks, amounts, calibration."""
    prepared = [one for fold in parts for one in fold.prepared]
    by_hand = hand_weights([one.recording for one in prepared])
    lattices = [lat for fold in parts for lat in fold.lattices]
    tables = {"stretches": learn_stretches(lattices, [by_hand[one.recording.hand] for one in prepared])}
    for name in ("exercise: bias", "new: bias"):
        tables["stretches"][name] += BOLDER
    log("stretches")
    tables |= {name: learner(prepared) for name, learner in BLOCK_LEARNERS.items()}
    tables["calibration"] = calibration(prepared, tables)
    log("blocks, amounts, calibration")
    return tables


def train(recordings: Sequence[Recording], log: Log = lambda _: None) -> Tables:
    """All tables."""
    return act_tables(recordings) | late_tables(folds(recordings, log), log)


def left_out(wanted: Sequence[str], log: Log = lambda _: None) -> Iterator[tuple[str, Tables]]:
    """For each of the wanted hands all tables learned without it."""
    parts = folds([recording for hand in hands() for recording in recordings_of(hand)], log)
    for hand in wanted:
        own = next(fold.tables for fold in parts if fold.hand == hand)
        yield hand, own | late_tables([fold for fold in parts if fold.hand != hand], log)


BOLDER = 1.3
"""Added to the bias of exercises, so that as many are missed as are too many: an exercise left out costs
the trainer more than one to delete. Chosen on hands left out.
"""


def calibration(fitted: Sequence[Prepared], tables: Tables) -> dict[str, float]:
    """Platt's scaling of the probabilities of items, doses and sets, on the cross-fitted recordings."""
    seen: dict[str, list[tuple[float, bool, float]]] = {"item": [], "dose": [], "sets": []}
    by_hand = hand_weights([one.recording for one in fitted])
    late = {name: tables[name] for name in (*BLOCK_LEARNERS, "stretches")} | {"calibration": {}}
    for one in fitted:
        model = Model({**{n: w.weights for n, w in one.heard.model.tables.items()}, **late})
        heard = replace(one.heard, model=model)
        weight = by_hand[one.recording.hand]
        for what, probability, right in judged(heard, one.recording.truth):
            seen[what].append((probability, right, weight))
    out = {}
    for what, rows in seen.items():
        odds = [[math.log(max(1e-4, p) / max(1e-4, 1 - p))] for p, _, _ in rows]
        model = LogisticRegression(C=10.0).fit(
            odds, [r for _, r, _ in rows], sample_weight=[w for *_, w in rows]
        )
        out[f"{what}: slope"] = float(model.coef_[0][0])
        out[f"{what}: bias"] = float(model.intercept_[0])
    return out


def judged(heard: Heard, truth: dict[str, Any]) -> Iterator[tuple[str, float, bool]]:
    """The findings of a draft with their probabilities, and whether they are right."""
    blocks = session_of(heard)
    true = [
        (start, item, block) for block in truth["blocks"] for start, _, item in spans({"blocks": [block]})
    ]
    for block in blocks:
        near = [t for t in true if abs(t[0] - block.items[0].start) <= 60]
        if block.sets is not None and near:
            right = {str(near[0][2]["sets"]), *(str(s) for s in near[0][2].get("sets_also", []))}
            yield "sets", block.sets_confidence, str(block.sets) in right
        for item in block.items:
            if item.exercise is None:
                continue
            match = [t for t in true if t[1]["exercise"] == item.exercise and abs(t[0] - item.start) <= 15]
            yield "item", item.confidence, bool(match)
            if match and item.dose is not None:
                right_doses = [(*size(d), d.per_side) for d in true_doses(match[0][1])]
                yield "dose", item.dose_confidence, (*size(item.dose), item.dose.per_side) in right_doses


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
