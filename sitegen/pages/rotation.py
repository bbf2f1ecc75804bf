"""The plan for two unequal loads in words: which hand holds the heavier one in which set."""

from dataclasses import replace
from typing import Any

from sitegen.model import Item
from sitegen.notation import Dose
from sitegen.pages.phrases import Phrases
from sitegen.pages.theme import plural
from sitegen.study.rotation import RotatedSet, Rotation, rotations
from sitegen.study.span import Span


def rotation_words(item: Item, dose: Dose | None, sets: Span, strings: Any, phrases: Phrases) -> str:
    """``set 1 left · set 2 right · set 3 left 4, then right 4``; empty where no plan is needed.

    ``dose`` may be another than the item's own, for another form of it. Where the block leaves the
    number of sets open there is one plan for each number.
    """
    plans = rotations(item if dose == item.dose else replace(item, dose=dose), sets)
    words = [_plan(plan, strings.rotation, phrases) for plan in plans]
    if len(plans) < 2:
        return "".join(words)
    counted = [
        plural(strings.notation.sets, len(plan.sets)).replace("#", str(len(plan.sets))) for plan in plans
    ]
    named = (strings.rotation.plan.format(sets=n, steps=plan) for n, plan in zip(counted, words, strict=True))
    return str(strings.rotation.plans.join(named))


def _plan(plan: Rotation, words: Any, phrases: Phrases) -> str:
    steps = words.between.join(
        words.set.format(n=one.number, hands=_hands(one, plan.unit, words)) for one in plan.sets
    )
    more = plan.left - plan.right
    if more == 0:
        return str(steps)
    text = words.residual_left if more > 0 else words.residual_right
    return f"{steps} {text.format(amount=_amount(abs(more), plan.unit, words, phrases))}"


def _hands(one: RotatedSet, unit: str, words: Any) -> str:
    """Which hand, and for a set with a swap how much in either."""
    shares = {"left": one.left, "right": one.right}
    second = "right" if one.begins == "left" else "left"
    if shares[second] == 0:
        return str(getattr(words, one.begins))
    parts = (_part(getattr(words, hand), shares[hand], unit, words) for hand in (one.begins, second))
    return str(words.then.join(parts))


def _part(hand: str, amount: float, unit: str, words: Any) -> str:
    number = f"{amount:g}"
    return str(
        words.part.format(
            hand=hand, amount=words.seconds.format(amount=number) if unit == "seconds" else number
        )
    )


def _amount(amount: float, unit: str, words: Any, phrases: Phrases) -> str:
    if unit == "seconds":
        return str(words.seconds.format(amount=f"{amount:g}"))
    return phrases.dose(Dose(kind="count", low=int(amount), high=int(amount), unit=unit))
