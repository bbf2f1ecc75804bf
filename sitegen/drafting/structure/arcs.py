"""Stretches of a recording that may show one exercise, and what speaks for each.

An *arc* goes from one passage to another and is labelled with an exercise, or with :data:`NEW` for one
that the library lacks; all arcs between the same passages are tried as one *span*. What lies between arcs is
other talk. The features of arcs and of other talk are the only things that the segmentation sees; their
weights are learned (``data/stretches.tsv``).
"""

import math
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from operator import mul
from typing import NamedTuple

from sitegen.drafting.amounts import spoken
from sitegen.drafting.heard import WHOLE, Heard
from sitegen.drafting.learned_tables import probability
from sitegen.drafting.names.evidence import KINDS
from sitegen.drafting.structure.acts import INSIDE, START, TURN, TalkActs

NEW = ""
"""The label of an exercise that the library lacks."""

SPAN_FEATURES = (
    "bias", "start", "inside", "words", "seconds", "short", "dose", "turn inside", "start inside",
)  # fmt: skip
"""What speaks for a stretch whatever exercise it shows: said once for all its arcs."""
LABEL_FEATURES = (
    "cover", "whole", "shown", "early", "rival", "others named", "named before", "named later",
    "text", "names", "pattern", "body", "share", "ahead", "peak",
)  # fmt: skip
"""What speaks for its showing one exercise of the library."""
ARC_FEATURES = (*SPAN_FEATURES, *LABEL_FEATURES)
NEW_FEATURES = (
    "bias", "start", "inside", "known", "evidence", "words", "seconds", "short", "dose", "called",
)  # fmt: skip
TALK_FEATURES = ("bias", "inside", "named", "words", "turn")

_MOST_PASSAGES, _MOST_SECONDS = 75, 420
"""An exercise is shown for seven minutes at most; longer stretches are not tried."""

_LIKELY_START, _LIKELY_END = -4.7, -1.0
"""Log-odds from which on a passage is tried as the start of an exercise, and as the end of the one before."""

_SHORT_WORDS = 14
"""Stretches of fewer words are hardly ever all that is said of an exercise."""

_TRUST = (3.0, 0.3, 0.3, 0.3)
"""What each kind of evidence counts there: words of the card's own text tell most."""

_BRIEF, _NEAR = 4, 12
"""Passages up to which a stretch may end anywhere, and at places that are only likelier than their
neighbours.
"""

_LOOKS, _LABELS = (2, 5, 14), (3, 2, 2)
"""For each start so many exercises with the most evidence in so many passages are tried: those named or
described at once, soon, or later on.
"""

Numbers = tuple[float, ...]


class SpannedPassages(NamedTuple):
    """Passages ``first`` up to ``end`` with the features of all arcs between them.

    One object for all of them, which its reader scores and drops: an hour has 200,000 arcs.
    """

    first: int
    end: int
    features: Numbers
    """:data:`SPAN_FEATURES`."""
    labels: list[tuple[str, Numbers]]
    """For each exercise that is tried its :data:`LABEL_FEATURES`."""
    new: Numbers | None
    """:data:`NEW_FEATURES`; None where only exercises of the library are looked for."""


@dataclass(frozen=True, slots=True)
class SaidByPassage:
    """For each passage the mentions that begin in it, and whether a dose is said in it."""

    mentions: list[list[int]]
    doses: list[int]
    """Sums: doses said before each passage."""


def places_of(heard: Heard) -> SaidByPassage:
    """The mentions and doses by passage."""
    firsts = [passage.first for passage in heard.passages]
    mentions: list[list[int]] = [[] for _ in firsts]
    counts = [0] * len(firsts)
    for index, mention in enumerate(heard.mentions):
        if not mention.aside:
            mentions[max(0, bisect_left(firsts, mention.first + 1) - 1)].append(index)
    for amount in heard.amounts:
        if amount.kind in (spoken.DOSE, spoken.WORK) and not amount.counted:
            counts[max(0, bisect_left(firsts, amount.first + 1) - 1)] += 1
    sums = [0]
    for count in counts:
        sums.append(sums[-1] + count)
    return SaidByPassage(mentions, sums)


def damped(value: float) -> float:
    """Growing ever less: the tenth hint says less than the first."""
    return math.log1p(value) if value >= 0 else -math.log1p(-value)


def talk_features(heard: Heard, acts: TalkActs, places: SaidByPassage) -> list[tuple[float, ...]]:
    """The features of each passage as other talk."""
    out: list[tuple[float, ...]] = []
    inside, turns = acts.passages[INSIDE], acts.passages[TURN]
    for place, passage in enumerate(heard.passages):
        best = (m for m in places.mentions[place] if heard.mentions[m].best)
        named = max((heard.mentions[m].cover * probability(acts.mentions[m]) for m in best), default=0.0)
        out.append((1.0, inside[place], named, math.log(passage.length), probability(turns[place])))
    return out


def spans_of(
    heard: Heard, acts: TalkActs, places: SaidByPassage, labels: frozenset[str] | None = None
) -> Iterator[SpannedPassages]:
    """All arcs that are tried, in the order of their starts; of ``labels`` only, where given."""
    recording = _Recording(heard, acts, places)
    starts = [s >= _LIKELY_START or labels is not None for s in acts.passages[START]]
    for place, mentions in enumerate(places.mentions):
        starts[place] |= any(heard.mentions[m].cover >= WHOLE for m in mentions)
    for first, tried in enumerate(starts):
        if tried:
            yield from _from(recording, first, _labels(recording, first, labels), new=labels is None)


def _labels(recording: "_Recording", first: int, wanted: frozenset[str] | None) -> list[str]:
    """The exercises tried for a start: named at once or soon, or with the most evidence."""
    ranked: dict[str, None] = {}
    for look, most in zip(_LOOKS, _LABELS if wanted is None else (99,) * len(_LOOKS), strict=True):
        scores = _label_scores(recording, first, look, wanted)
        best = sorted((-score, exercise) for exercise, score in scores.items() if exercise not in ranked)
        ranked |= dict.fromkeys(exercise for _, exercise in best[:most])
    return list(ranked)[: 2 * sum(_LABELS)]


def _label_scores(
    recording: "_Recording", first: int, look: int, wanted: frozenset[str] | None
) -> dict[str, float]:
    heard, places = recording.heard, recording.places
    end = min(len(heard.passages), first + look)
    scores = {
        exercise: row[end] - row[first]
        for exercise, row in recording.trusted.items()
        if wanted is None or exercise in wanted
    }
    for place in range(first, end):
        for m in places.mentions[place]:
            mention = heard.mentions[m]
            if mention.exercise in scores:
                # A whole name counts for more than any text: it is always tried.
                scores[mention.exercise] += (8.0 if mention.best else 3.0) * mention.cover
    return scores


def end_scores(heard: Heard, acts: TalkActs, places: SaidByPassage) -> list[float]:
    """For each passage how likely something else begins with it."""
    scores = []
    for place in range(len(heard.passages)):
        score = acts.passages[START][place]
        if place:
            score = max(score, acts.passages[TURN][place - 1])
        score = max(score, -1.0 - acts.passages[INSIDE][place])
        if any(heard.mentions[m].cover >= WHOLE and heard.mentions[m].best for m in places.mentions[place]):
            score = max(score, -1.0)
        scores.append(score)
    return scores


def _ends(heard: Heard, scores: list[float], first: int) -> Iterator[int]:
    """The passages up to which a stretch may go: near ones that are likelier than their neighbours, and far
    ones that are likely.
    """
    begin = heard.passages[first].start
    for end in range(first + 1, min(len(heard.passages), first + _MOST_PASSAGES) + 1):
        if end == len(heard.passages):
            yield end
            return
        if heard.passages[end - 1].start - begin > _MOST_SECONDS:
            return
        likelier = scores[end] >= max(scores[end - 1 : end + 2])
        if scores[end] >= _LIKELY_END or end - first <= _BRIEF or (end - first <= _NEAR and likelier):
            yield end


class _Recording:
    """What the arcs of a recording look at, worked out once."""

    def __init__(self, heard: Heard, acts: TalkActs, places: SaidByPassage) -> None:
        self.heard, self.acts, self.places = heard, acts, places
        self.ends = end_scores(heard, acts, places)
        self.sums = [heard.evidence[kind] for kind in KINDS]
        self.turns = [probability(score) for score in acts.passages[TURN]]
        # Bounds of log-odds, so that no single passage outweighs the rest of an arc (our choice).
        self.inside = [max(-3.0, min(3.0, score)) for score in acts.passages[INSIDE]]
        self.shown = [probability(score) for score in acts.mentions]
        calling = {"called", "call", "name"}
        self.calls = [
            float(not calling.isdisjoint(heard.shapes[p.first : p.last + 1])) for p in heard.passages
        ]
        """Whether a passage gives something a name: "we call it"."""
        self.trusted = {
            e: [sum(map(mul, _TRUST, values)) for values in zip(*(s[e] for s in self.sums), strict=True)]
            for e in heard.library.cards
        }
        """The sums of all kinds of evidence as one."""
        self.cards = {e: max(3.0, sum(card.text.values())) for e, card in heard.library.cards.items()}
        self.peaks = {e: _peak(sums) for e, sums in heard.evidence["text"].items()}
        self.named: dict[str, list[tuple[int, float]]] = {e: [] for e in heard.library.cards}
        for mention, shown in zip(heard.mentions, self.shown, strict=True):
            if mention.best and not mention.aside:
                self.named[mention.exercise].append((mention.first, mention.cover * shown))


_PEAK_PASSAGES = 8
"""So many passages are about what is told of an exercise at once: two to four sentences and their cues."""


def _peak(sums: list[float]) -> float:
    """The most evidence in any few passages of the recording; at least 1."""
    reach = min(_PEAK_PASSAGES, len(sums) - 1)
    return max(1.0, *(sums[i + reach] - sums[i] for i in range(len(sums) - reach)))


_EARLY, _AT_ONCE = 3, 2
"""Passages from the start within which an exercise is named early, and another one speaks against it."""


class _Naming:
    """How an exercise is named from a start on; ``take`` adds a passage."""

    def __init__(self, label: str, named: list[tuple[int, float]], token: int) -> None:
        self.label = label
        self.cover = self.whole = self.rival = self.shown = self.early = 0.0
        self.others: set[str] = set()
        self.before = max((sure for first, sure in named if first < token), default=0.0)
        self.ever = max((sure for _, sure in named), default=0.0)
        self.features = self._features()

    def take(self, recording: _Recording, place: int, distance: int) -> None:
        """Add the mentions of a passage, ``distance`` passages behind the start."""
        for m in recording.places.mentions[place]:
            mention, shown = recording.heard.mentions[m], recording.shown[m]
            if not mention.best:
                continue
            if mention.exercise == self.label:
                self.cover = max(self.cover, mention.cover)
                self.whole = max(self.whole, float(mention.cover >= WHOLE))
                self.shown = max(self.shown, mention.cover * shown)
                if distance < _EARLY:
                    self.early = max(self.early, mention.cover)
            elif mention.cover >= WHOLE and shown > 0.5:
                self.others.add(mention.exercise)
                if distance < _AT_ONCE:
                    self.rival = max(self.rival, mention.cover * shown)
            else:
                continue
            self.features = self._features()

    def _features(self) -> Numbers:
        """The first of :data:`LABEL_FEATURES`."""
        later = max(0.0, self.ever - max(self.before, self.shown))
        others = math.log1p(len(self.others))
        return (
            self.cover, self.whole, self.shown, self.early, self.rival, others, self.before, later,
        )  # fmt: skip


def _from(recording: _Recording, first: int, labels: list[str], *, new: bool) -> Iterator[SpannedPassages]:
    """The spans from one start: with the exercises ``labels``, and a new one where ``new``."""
    heard, acts, passages, log1p = recording.heard, recording.acts, recording.heard.passages, math.log1p
    begin = passages[first]
    namings = [_Naming(label, recording.named[label], begin.first) for label in labels]
    rows = [[sums[label] for sums in recording.sums] for label in labels]
    bases = [[row[first] for row in of_label] for of_label in rows]
    whole = [(recording.cards[label], recording.peaks[label]) for label in labels]
    known = called = inside = turns = inner = 0.0
    done = first
    start = acts.passages[START][first]
    for end in _ends(heard, recording.ends, first):
        while done < end:
            if recording.places.mentions[done]:
                for naming in namings:
                    naming.take(recording, done, done - first)
                for m in recording.places.mentions[done]:
                    if heard.mentions[m].best:
                        known = max(known, heard.mentions[m].cover * recording.shown[m])
            called = max(called, recording.calls[done])
            inside += recording.inside[done]
            if done > first:
                inner += max(0.0, acts.passages[START][done])
                turns += recording.turns[done - 1]
            done += 1
        words = passages[end - 1].last - begin.first + 1
        seconds = log1p(passages[end - 1].end + passages[end - 1].pause_after - begin.start)
        long, short = math.log(words), float(words < _SHORT_WORDS)
        talk, over, opens = damped(inside), log1p(turns), damped(inner)
        dose = float(recording.places.doses[end] > recording.places.doses[first])
        texts = [of_label[0][end] - base[0] for of_label, base in zip(rows, bases, strict=True)]
        best, second = [*sorted(texts, reverse=True), 0.0, 0.0][:2]
        shows = []
        for naming, text, (_, row2, row3, row4), (_, base2, base3, base4), (card, peak) in zip(
            namings, texts, rows, bases, whole, strict=True
        ):
            some = text if text > 0 else 0.0
            names, pattern, body = row2[end] - base2, row3[end] - base3, row4[end] - base4
            ahead = text - (second if text >= best else best)
            own = (
                *naming.features,
                log1p(text) if text >= 0 else -log1p(-text),  # ``damped``, written out for speed
                log1p(names) if names >= 0 else -log1p(-names),
                log1p(pattern) if pattern >= 0 else -log1p(-pattern),
                log1p(body) if body >= 0 else -log1p(-body),
                min(2.0, some / card),  # beyond twice the words of its card nothing more is told (our choice)
                log1p(ahead) if ahead >= 0 else -log1p(-ahead),
                min(1.5, some / peak),  # the same of the best stretch
            )
            shows.append((naming.label, own))
        unknown = (
            1.0, start, talk, known, damped(best), long, seconds, short, dose, called,
        )  # fmt: skip
        common = (1.0, start, talk, long, seconds, short, dose, over, opens)
        yield SpannedPassages(first, end, common, shows, unknown if new else None)
