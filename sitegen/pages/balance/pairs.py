"""What balances what: push and pull, knee and hinge, upper and lower, left and right."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.pages.balance.labels import amount
from sitegen.pages.balance.weeks_together import TrainedWeek
from sitegen.pages.phrases import Phrases
from sitegen.pages.site import Site
from sitegen.study.span import Span
from sitegen.study.training import Training, UnevenLoad
from sitegen.study.volume import Balance

PAIRS = (("push", "pull"), ("knee", "hinge"), ("upper", "lower"))
"""Fields of ``Balance`` that are set against each other."""

NOTHING_LEFT_KG = 0.05
"""A smaller remainder (kilograms times repetitions, seconds and so on) is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PairView:
    """One pair over all weeks of the page."""

    first: str
    """Field names, for the theme's words."""
    second: str
    first_sets: str
    second_sets: str
    first_width: float
    """Per cent of the half of the drawing on its side."""
    second_width: float
    ratio: str
    """The first for each of the second: ``0.8`` or ``0.7–0.9``; empty where there is no second."""
    weeks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnevenView:
    """An exercise with unequal loads."""

    exercise: str
    name: str
    sessions: tuple[int, ...]
    left_over: str
    """What one side does more in the worst session, in words; empty for nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SidesView:
    """Left and right over all weeks of the page."""

    one_sided: str
    two_sided: str
    uneven: tuple[UnevenView, ...]


def pair_views(site: Site, whole: Training, weeks: Sequence[TrainedWeek]) -> tuple[PairView, ...]:
    """The pairs; ``whole`` is what all the weeks ask for."""
    spans = [getattr(whole.balance, side) for pair in PAIRS for side in pair]
    most = max((span.mid for span in spans), default=0) or 1
    return tuple(_pair(site.phrases, first, second, whole, weeks, most) for first, second in PAIRS)


def _pair(
    phrases: Phrases, first: str, second: str, whole: Training, weeks: Sequence[TrainedWeek], most: float
) -> PairView:
    one, other = _both(whole.balance, first, second)
    return PairView(
        first=first,
        second=second,
        first_sets=_sets(phrases, one),
        second_sets=_sets(phrases, other),
        first_width=round(100 * one.mid / most, 1),
        second_width=round(100 * other.mid / most, 1),
        ratio=ratio_text(phrases, one, other),
        weeks=tuple(
            (_sets(phrases, a), _sets(phrases, b))
            for a, b in (_both(week.training.balance, first, second) for week in weeks)
        ),
    )


def _both(balance: Balance, first: str, second: str) -> tuple[Span, Span]:
    return getattr(balance, first), getattr(balance, second)


def _sets(phrases: Phrases, span: Span) -> str:
    return amount(phrases, span) or "0"


def ratio_text(phrases: Phrases, one: Span, other: Span) -> str:
    """How many of the one there are for each of the other, to one decimal."""
    if other.low == 0:
        return ""
    return phrases.number(round(one.low / other.high, 1), round(one.high / other.low, 1))


def sides_view(site: Site, whole: Training) -> SidesView:
    """What is done on one side, on both, and with unequal loads."""
    by_exercise: dict[str, list[UnevenLoad]] = {}
    for uneven in whole.uneven:
        by_exercise.setdefault(uneven.exercise, []).append(uneven)
    return SidesView(
        one_sided=_sets(site.phrases, whole.one_sided),
        two_sided=_sets(site.phrases, whole.two_sided),
        uneven=tuple(_uneven(site, name, loads) for name, loads in by_exercise.items()),
    )


def _uneven(site: Site, exercise: str, loads: Sequence[UnevenLoad]) -> UnevenView:
    worst = max(loads, key=lambda one: one.left_over)
    return UnevenView(
        exercise=exercise,
        name=site.exercise(exercise).name,
        sessions=tuple(dict.fromkeys(one.session for one in loads)),
        left_over=_left_over(site, worst) if worst.left_over > NOTHING_LEFT_KG else "",
    )


def _left_over(site: Site, one: UnevenLoad) -> str:
    words = site.theme.strings.balance.pairs
    return str(words.uneven_rest.format(amount=f"{one.left_over:.1f}", measure=words.measures[one.measure]))
