"""Learning what rests on single words: how rare they are, where sentences end, and which of them go with
which attributes of exercises.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence

from sitegen.drafting.learned_tables import LearnedModel
from sitegen.drafting.names.cards import ExerciseCard, library_of, stems_of
from sitegen.drafting.names.evidence import EXPECTED
from sitegen.drafting.transcript.passages import boundary_features
from sitegen.drafting.transcript.stems import stem
from sitegen.drafting.transcript.words import stream_of
from tests.captions.corpus import Recording, spans
from tests.captions.fits import Row, linear


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


def sentences(recordings: Sequence[Recording]) -> dict[str, float]:
    """Where a sentence ends, from the recordings in which somebody marks it."""
    rows = []
    for recording in recordings:
        stream = stream_of(recording.captions.cues)
        if not stream.punctuated:
            continue
        for before, after in zip(stream.tokens, stream.tokens[1:], strict=False):
            ends = after.break_before >= 2
            rows.append(Row(dict(boundary_features(before, after)), ends, recording.name))
    return linear(rows, strength=1.0, least=0.15)


Described = tuple[ExerciseCard, set[str], float]
"""The card of an exercise, stems that go with it, and what they count."""


def _told(recordings: Sequence[Recording], model: LearnedModel) -> Iterator[Described]:
    """What is said while an exercise is shown."""
    for recording in recordings:
        library = library_of(recording.series, model)
        tokens = stream_of(recording.captions.cues).tokens
        for start, end, item in spans(recording.truth):
            card = library.cards.get(item["exercise"] or "")
            if card is not None:
                said = (t for t in tokens if start - 0.5 <= t.start < end and t.value is None)
                yield card, {stem(t.text) for t in said}, 1.0


_CARD = 0.5
"""What a card counts beside a stretch of talk: cards are written in the words of the trade too, and there are
more of them than are shown. With them 2 to 4 in 100 exercises more of J, L and M were found, each left out.
"""


def _written(recordings: Sequence[Recording], model: LearnedModel) -> Iterator[Described]:
    """What stands on the cards of the libraries, each once."""
    seen: set[tuple[str, str]] = set()
    for recording in recordings:
        library = library_of(recording.series, model)
        for exercise in recording.series.exercises.values():
            text = " ".join((exercise.summary, *exercise.cues))
            if (exercise.name, text) not in seen:
                seen.add((exercise.name, text))
                yield library.cards[exercise.id], set(stems_of(text)), _CARD


def associations(recordings: Sequence[Recording], model: LearnedModel) -> dict[str, float]:
    """Which words go with which attributes of exercises, as shrunken log-odds."""
    of_word: Counter[str] = Counter()
    of_attribute: Counter[str] = Counter()
    both: Counter[tuple[str, str]] = Counter()
    total = 0.0
    for card, words, weight in (*_told(recordings, model), *_written(recordings, model)):
        attributes = {a for kind in card.attributes for a in kind}
        total += weight
        for word in words:
            of_word[word] += weight
        for attribute in attributes:
            of_attribute[attribute] += weight
            for word in words:
                both[attribute, word] += weight
    out = {}
    expected: dict[str, float] = defaultdict(float)
    # In order, so that sums are the same to the last bit in every run.
    for (attribute, word), count in sorted(both.items()):
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
