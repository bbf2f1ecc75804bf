"""Sets per muscle and per pattern, by episode and by week, and how they balance.

A set counts 1 for each prime muscle and 1/2 for each assisting one: the fractional counting that
fitted best in Pelland et al. 2024 (SportRxiv preprint, 67 studies). Only sets of strength and
conditioning blocks count; warm-up, mobility and cool-down prepare or ease, they do not load.
"""

from collections.abc import Collection, Hashable, Iterable, Iterator
from dataclasses import dataclass, fields
from typing import TypeVar

from sitegen.model import Block, Details, Episode, Item
from sitegen.study.doses import dose_in
from sitegen.study.forms import Form, Forms, shown_form
from sitegen.study.load import difference
from sitegen.study.rotation import rotations
from sitegen.study.span import NOTHING, Span, add_to, total
from sitegen.study.timing import item_sets
from sitegen.vocabulary import MUSCLE_REGIONS

COUNTED_KINDS = ("strength", "conditioning")
"""Kinds of block whose sets count."""
STRENGTH = ("strength",)
CONDITIONING = ("conditioning",)
ASSISTS = 0.5
"""What a set counts for each assisting muscle: see above."""

PUSH = ("push horizontal", "push vertical")
PULL = ("pull horizontal", "pull vertical")
KNEE = ("squat", "lunge", "step")
"""Patterns led by the knee, weighed against the hinge."""

Week = TypeVar("Week", bound=Hashable)


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedItem:
    """One item whose sets count."""

    block: Block
    item: Item
    form: Form
    """As filmed."""
    sets: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Sets on both sides of each pair; a set of two regions counts for both."""

    push: Span
    pull: Span
    knee: Span
    """Squat, lunge and step patterns."""
    hinge: Span
    upper: Span
    lower: Span

    @classmethod
    def summed(cls, balances: Iterable["Balance"], share: float = 1) -> "Balance":
        """The sum of some, or that share of it."""
        all_ = list(balances)
        names = [side.name for side in fields(cls)]
        return cls(**{name: total(getattr(one, name) for one in all_) * share for name in names})


@dataclass(frozen=True, slots=True, kw_only=True)
class UnevenItem:
    """An item done with two unequal loads, and what its rotation leaves over."""

    item: Item
    residuals: tuple[float, ...]
    """Kilograms times the measure that one side does more (left counts up), for each number of sets that
    the block allows; the most that there may be where the amount is not known beforehand."""
    measure: str
    """What the work is counted in: ``reps``, ``steps``, ``breaths``, ``seconds``, ``m``, ``ft`` or ``yd``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkBySide:
    """How the work falls to left and right."""

    side_by_side: Span
    """Sets that are done on one side, then just so on the other."""
    together: Span
    """Sets in which both sides work at once with the same load, or with none."""
    uneven: tuple[UnevenItem, ...]


def counted_items(
    details: Details, forms: Forms, episode: Episode, kinds: Collection[str] = COUNTED_KINDS
) -> Iterator[CountedItem]:
    """The items whose sets count, in the order filmed; ``kinds`` of block, or all that count."""
    for block in episode.blocks:
        if block.kind in kinds:
            sets = item_sets(details, forms, block)
            for item, span in zip(block.items, sets, strict=True):
                yield CountedItem(block=block, item=item, form=shown_form(forms, item), sets=span)


def muscle_sets(
    details: Details, forms: Forms, episodes: Iterable[Episode], kinds: Collection[str] = COUNTED_KINDS
) -> dict[str, Span]:
    """Fractional sets of each muscle over the episodes."""
    sums: dict[str, Span] = {}
    for episode in episodes:
        for one in counted_items(details, forms, episode, kinds):
            for muscle, share in muscle_shares(one.form).items():
                add_to(sums, muscle, one.sets * share)
    return sums


def muscle_shares(form: Form) -> dict[str, float]:
    """What one set counts for each muscle; one named as both prime and assisting counts 1."""
    return dict.fromkeys(form.muscles.assist, ASSISTS) | dict.fromkeys(form.muscles.prime, 1.0)


def pattern_sets(
    details: Details, forms: Forms, episodes: Iterable[Episode], kinds: Collection[str] = COUNTED_KINDS
) -> dict[str, Span]:
    """Sets of each pattern over the episodes."""
    sums: dict[str, Span] = {}
    for episode in episodes:
        for one in counted_items(details, forms, episode, kinds):
            add_to(sums, one.form.pattern, one.sets)
    return sums


def region_sets(
    details: Details, forms: Forms, episodes: Iterable[Episode], kinds: Collection[str] = COUNTED_KINDS
) -> dict[str, Span]:
    """Sets of each region: a set counts once for every region one of its prime muscles is in."""
    regions = MUSCLE_REGIONS | dict(details.muscles)
    sums: dict[str, Span] = {}
    for episode in episodes:
        for one in counted_items(details, forms, episode, kinds):
            for region in dict.fromkeys(regions[muscle] for muscle in one.form.muscles.prime):
                add_to(sums, region, one.sets)
    return sums


def balance(
    details: Details, forms: Forms, episodes: Iterable[Episode], kinds: Collection[str] = COUNTED_KINDS
) -> Balance:
    """Push and pull, knee and hinge, upper and lower over the episodes.

    No published source supports a target for any of these ratios (Negrete et al. 2013 and a 2015
    study of untrained adults point in opposite directions for push and pull): limits are the trainer's.
    """
    chosen = list(episodes)
    patterns = pattern_sets(details, forms, chosen, kinds)
    regions = region_sets(details, forms, chosen, kinds)

    def of(names: Iterable[str]) -> Span:
        return total(patterns.get(name, NOTHING) for name in names)

    return Balance(
        push=of(PUSH),
        pull=of(PULL),
        knee=of(KNEE),
        hinge=of(("hinge",)),
        upper=regions.get("upper", NOTHING),
        lower=regions.get("lower", NOTHING),
    )


def sides(
    details: Details, forms: Forms, episodes: Iterable[Episode], kinds: Collection[str] = COUNTED_KINDS
) -> WorkBySide:
    """Work that is one-sided, two-sided, or two-sided with unequal loads."""
    sums = {"side_by_side": NOTHING, "together": NOTHING}
    uneven: list[UnevenItem] = []
    for episode in episodes:
        for one in counted_items(details, forms, episode, kinds):
            if one.item.load and difference(one.item.load):
                left_over = tuple(plan.residual for plan in rotations(one.block, one.item, one.sets))
                measure = dose_in(one.block, one.item).measure
                uneven.append(UnevenItem(item=one.item, residuals=left_over, measure=measure))
            else:
                per_side = dose_in(one.block, one.item).per_side
                add_to(sums, "side_by_side" if per_side else "together", one.sets)
    return WorkBySide(**sums, uneven=tuple(uneven))
