"""Which of the amounts said is the dose of an item, and whether it is one for each side."""

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from sitegen.drafting.amounts.candidates import BlockAmounts, dose_in, dose_key
from sitegen.drafting.amounts.choice import likeliest
from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.heard import Heard
from sitegen.drafting.learned_tables import Feature, phrases_said, probability, word_features, word_list
from sitegen.drafting.names.passing import is_said, talk_around
from sitegen.drafting.structure.outline import OutlineItem
from sitegen.drafting.transcript.words import plain_words
from sitegen.notation import Dose

DOSE, SIDES = "dose", "sides"
"""The tables."""


def choose_dose(said: BlockAmounts, item: OutlineItem) -> tuple[Dose, float, int] | None:
    """The likeliest dose of an item, its probability, and where it is said; None where nothing may be one."""
    heard = said.heard
    found = likeliest(heard, DOSE, said.candidates(item), dose_key)
    if found is None:
        return None
    best, confidence = found
    if (later := _corrected(said, item, best)) is not None:
        best, confidence = later, min(confidence, _OF_CORRECTED)
    dose = dose_in(best)
    if dose is None:
        return None
    if not best.sided and dose.kind != "max" and not dose.parts:
        sided = probability(heard.model[SIDES].score(side_features(said, item, best)))
        dose = replace(dose, per_side=sided > 0.5)  # likelier than not
        confidence *= max(sided, 1 - sided)
    return dose, confidence, best.first


_OF_CORRECTED = 0.6
"""How sure a dose is that replaces a likelier one: a question, whatever was first thought of either."""


def _corrected(said: BlockAmounts, item: OutlineItem, best: SpokenAmount) -> SpokenAmount | None:
    """The amount that is said later in place of another, of the item by where it is said or by its name."""
    for amount in reversed(said.amounts):
        if amount.first <= best.last or amount.counted or dose_key(amount) == dose_key(best):
            continue
        before, after = said.bound(item, amount)[0].split()[:2]
        own = before == "own" or (
            before == "none" and (after == "own" or item.first <= amount.first < item.told)
        )
        if own and is_said("dose_corrected", talk_around(said.heard.tokens, amount.first, amount.last)):
            return amount
    return None


# -- sides


def side_features(said: BlockAmounts, item: OutlineItem, amount: SpokenAmount) -> list[Feature]:
    """What tells that a dose without a side is one for each side: "and the other leg", the exercise's card,
    the same number said with a side elsewhere.
    """
    heard = said.heard
    out: list[Feature] = [("bias", 1.0)]
    words = heard.shapes[item.first : item.end]
    out += word_features("says ", words)
    sides, other = word_list("sides"), word_list("other_side")
    changes = sum(a in other and b in sides for a, b in pairwise(words))
    out.append(("changes sides", math.log1p(changes)))
    out += [(f"says of {name}", 1.5) for name in phrases_said("side_phrases", words)]
    dose = dose_in(amount)
    if dose:
        out += [(f"unit {dose.kind} {dose.unit}", 1.0), (f"form {amount.form}", 1.0)]
    # Four words behind and five before hold phrases such as "with the right arm" (our choice).
    after = heard.shapes[amount.last + 1 : amount.last + 5]
    out.append(("on a side", 2 * float(bool(sides.intersection(after)))))
    before = heard.shapes[max(item.first, amount.first - 5) : amount.first]
    out.append(("on a side before", float(bool(sides.intersection(before)))))
    out += word_features("after ", after)
    return [*out, *_card(heard, item), *_same_size(said, item, amount)]


def _card(heard: Heard, item: OutlineItem) -> Iterator[Feature]:
    """The words of an exercise's card: a split squat or a one-arm row is done side by side."""
    exercise = heard.series.exercises.get(item.exercise or "")
    if exercise is None:
        return
    yield f"pattern {exercise.pattern}", 1.0
    yield from word_features("name ", heard.library.cards[exercise.id].attributes[0])
    yield from word_features("card ", plain_words(" ".join((exercise.summary, *exercise.cues))))


def _same_size(said: BlockAmounts, item: OutlineItem, amount: SpokenAmount) -> Iterator[Feature]:
    """What tells of an amount where its number is said elsewhere of the same exercise."""
    same = [a for a in said.sizes.get(dose_key(amount), ()) if a.first != amount.first]
    own = [a for a in same if item.first <= a.first < item.end]
    named = [a for a in same if "own" in said.bound(item, a)[0]]
    yield "same with a side", 2 * float(any(a.sided for a in own))
    yield "same with a side by its name", 2 * float(any(a.sided for a in named))
    yield "same again", float(any(not a.sided for a in own))
