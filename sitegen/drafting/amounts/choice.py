"""Choosing one of some candidates, or none: a conditional logit over what is seen of each.

What doses and numbers of sets have in common: candidates are amounts that are said; a learned table
(``data/amounts.tsv``) scores each by where it is said, how, and between which words.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from sitegen.drafting.amounts.spoken import SpokenAmount
from sitegen.drafting.heard import Heard, words_beside
from sitegen.drafting.learned_tables import Feature, word_features, word_list

_AROUND, _FAR = 4, 10
"""Words around an amount that may tell what it is: near ones by their order, far ones by what they mean.
How far is our choice; what each weighs is learned.
"""


@dataclass(frozen=True, slots=True)
class PossibleAmount:
    """An amount that may be meant, with what is seen of it."""

    amount: SpokenAmount
    features: Sequence[Feature]


def likeliest(
    heard: Heard, table: str, candidates: Sequence[PossibleAmount], same: Callable[[SpokenAmount], object]
) -> tuple[SpokenAmount, float] | None:
    """The likeliest of the candidates' amounts, those with the same key ``same`` taken together, with its
    probability; None where there are none.

    A conditional logit (McFadden 1974): the probabilities of all candidates, and that none is meant, add up
    to 1.
    """
    # Nothing gains by odds of more than e to the 30th, and their sum stays finite.
    odds = [math.exp(min(30.0, heard.model[table].score(c.features))) for c in candidates]
    if not odds:
        return None
    totals: dict[object, float] = {}
    for candidate, value in zip(candidates, odds, strict=True):
        totals[same(candidate.amount)] = totals.get(same(candidate.amount), 0.0) + value
    best = max(totals, key=lambda key: totals[key])
    alike = [n for n, c in enumerate(candidates) if same(c.amount) == best]
    return candidates[max(alike, key=lambda n: odds[n])].amount, totals[best] / (1 + sum(odds))


def words_around(heard: Heard, amount: SpokenAmount, where: str) -> Iterator[Feature]:
    """The words before and behind an amount, in its sentence."""
    shapes = heard.shapes
    before, after = words_beside(heard, amount.first, amount.last, _AROUND)
    yield from word_features("before ", before)
    yield from word_features("after ", after)
    yield f"next before {before[-1] if before else '|'}", 1.0
    yield f"next after {after[0] if after else '|'}", 1.0
    if not before and not after:
        yield f"alone in its sentence {where}", 1.0
    back = shapes[max(0, amount.first - _FAR) : amount.first]
    ahead = shapes[amount.last + 1 : amount.last + 1 + _FAR]
    # How many words such a phrase may be away is our choice: corrections follow close, and lead a little.
    yield "taken back", float(bool(word_list("taken_back").intersection(ahead[:3])))
    yield "corrects", float(bool(word_list("corrects").intersection(back[-5:])))
    yield "another time", float(bool(word_list("another_time").intersection([*back, *ahead])))
    yield "of somebody", float(bool(word_list("somebody").intersection([*back[-6:], *ahead[:4]])))
    if {*before, *after} & word_list("everything"):
        yield f"of everything {where}", 1.0
