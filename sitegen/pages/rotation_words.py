"""The plan for two unequal loads in words: which hand holds the heavier one in which set."""

from typing import Any

from sitegen.model import Block, Item
from sitegen.notation import Dose
from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import plural
from sitegen.study.rotation import LEFT, RotatedSet, Rotation, Stretch, rotations
from sitegen.study.span import Span


class RotationWords:
    """Words plans in a theme's strings."""

    def __init__(self, strings: Any, phrases: Phrases) -> None:
        self._words = strings.rotation
        self._counted = strings.notation
        self._phrases = phrases

    def plan(self, block: Block, item: Item, sets: Span, first: str = LEFT, dose: Dose | None = None) -> str:
        """``set 1 left · set 2 right · set 3 left 4, then right 4``; empty where no plan is needed.

        ``first`` is the hand that begins; ``dose`` may be another than the item's own, for another form of
        it. Where the block leaves the number of sets open there is one plan for each number.
        """
        plans = rotations(block, item, sets, first, dose)
        words = [self._plan(plan) for plan in plans]
        if len(plans) < 2:
            return "".join(words)
        counted = (self._sets(len(plan.sets)) for plan in plans)
        named = (self._words.plan.format(sets=n, steps=text) for n, text in zip(counted, words, strict=True))
        return str(self._words.plans.join(named))

    def _sets(self, count: int) -> str:
        return plural(self._counted.sets, count).replace("#", str(count))

    def _plan(self, plan: Rotation) -> str:
        steps = self._words.between.join(self._set(plan, one) for one in plan.sets)
        if plan.over == 0:
            return str(steps)
        words = self._words.residual_left if plan.over > 0 else self._words.residual_right
        if plan.at_most:
            words = self._words.residual_most
        over = abs(plan.over)
        return f"{steps} {words.format(amount=amount_words(self._phrases, plan.measure, Span(over, over)))}"

    def _set(self, plan: Rotation, one: RotatedSet) -> str:
        hands = self._hands(plan, one)
        if not plan.repeats:
            return str(self._words.set.format(n=one.number, hands=hands))
        words = self._words.odd_rounds if one.number == 1 else self._words.even_rounds
        return str(words.format(hands=hands))

    def _hands(self, plan: Rotation, one: RotatedSet) -> str:
        """Which hand, and for a set with a swap how much in either."""
        first, *others = one.stretches
        if one.every:
            every = amount_words(self._phrases, plan.measure, Span(one.every, one.every))
            return f"{self._hand(first)}, {self._words.every.format(amount=every)}"
        if not others:
            return self._equal(self._words.equal_set, plan, first) if one.equal else self._hand(first)
        parts = [self._part(plan, first)]
        parts += [
            self._equal(self._words.equal, plan, s) if one.equal else self._part(plan, s) for s in others
        ]
        return str(self._words.then.join(parts))

    def _hand(self, stretch: Stretch) -> str:
        return str(getattr(self._words, stretch.hand))

    def _equal(self, words: str, plan: Rotation, stretch: Stretch) -> str:
        """``right as many``, or as long for a time, as far for a distance."""
        same = {"seconds": self._words.as_long, "m": self._words.as_far}
        same |= {"ft": self._words.as_far, "yd": self._words.as_far}
        return words.format(hand=self._hand(stretch), as_many=same.get(plan.measure, self._words.as_many))

    def _part(self, plan: Rotation, stretch: Stretch) -> str:
        if stretch.amount is None:
            return self._hand(stretch)
        number = self._phrases.number(stretch.amount.low, stretch.amount.high)
        if plan.measure == "seconds":
            number = self._words.seconds.format(amount=number)
        elif plan.measure in ("m", "ft", "yd"):
            number = self._words.distance.format(amount=number, unit=plan.measure)
        return str(self._words.part.format(hand=self._hand(stretch), amount=number))


def amount_words(phrases: Phrases, measure: str, amount: Span) -> str:
    """``4 reps``, ``4–6 steps``, ``17.5 s``."""
    counted = "# s" if measure == "seconds" else phrases.counted(measure, amount.high)
    return counted.replace("#", phrases.number(amount.low, amount.high))
