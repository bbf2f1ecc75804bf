"""What one session, or all sessions of a week, ask for: sets, balance, sides, minutes and energy.

Sets of strength and of conditioning blocks are kept apart. What research says about sets a week
(see ``volume``) was found for sets of strength training; rounds of conditioning are shown beside
them and count towards no limit. The balance of patterns and of sides is that of strength blocks.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sitegen.model import Details, Episode
from sitegen.study.energy import minutes_by_band, session_kcal
from sitegen.study.forms import Forms
from sitegen.study.span import NOTHING, Span, add_to, total
from sitegen.study.timing import SessionTime
from sitegen.study.volume import CONDITIONING, STRENGTH, Balance, UnevenItem, balance, muscle_sets, sides


@dataclass(frozen=True, slots=True, kw_only=True)
class UnevenLoad:
    """An exercise done with two unequal loads."""

    session: int
    """Number of the episode."""
    exercise: str
    left_over: float
    """Kilograms times ``measure`` that one side does more at the end of the rotation, in the worst of the
    numbers of sets allowed."""
    measure: str
    """``reps``, ``steps``, ``breaths``, ``seconds``, ``m``, ``ft`` or ``yd``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Training:
    """What is asked for; see the module for what counts."""

    strength: Mapping[str, Span]
    """Fractional sets of each muscle in strength blocks."""
    conditioning: Mapping[str, Span]
    """The same in conditioning blocks: rounds rather than sets."""
    balance: Balance
    one_sided: Span
    """Strength sets done on one side, then just so on the other."""
    two_sided: Span
    """Strength sets in which both sides work at once."""
    uneven: tuple[UnevenLoad, ...]
    minutes: Mapping[str, Span]
    """Minutes of work (rests left out) in each intensity band of ``energy.BANDS``."""
    aerobic: Mapping[str, Span]
    """The same of conditioning blocks only: minutes that count towards advice on aerobic activity."""
    kcal: Span
    """Gross energy, from the lightest viewer of the series to the heaviest."""
    strength_sessions: int
    """Sessions that have a strength block."""


def training_of(details: Details, forms: Forms, episode: Episode, time: SessionTime) -> Training:
    """What one episode asks for that takes so long."""
    one = [episode]
    halves = sides(details, forms, one, STRENGTH)
    return Training(
        strength=dict(sorted(muscle_sets(details, forms, one, STRENGTH).items())),
        conditioning=dict(sorted(muscle_sets(details, forms, one, CONDITIONING).items())),
        balance=balance(details, forms, one, STRENGTH),
        one_sided=halves.side_by_side,
        two_sided=halves.together,
        uneven=tuple(_uneven(episode.number, item) for item in halves.uneven),
        minutes=minutes_by_band(details, forms, episode, time),
        aerobic=minutes_by_band(details, forms, episode, time, CONDITIONING),
        kcal=session_kcal(details, forms, episode, time),
        strength_sessions=int(any(block.kind in STRENGTH for block in episode.blocks)),
    )


def together(trainings: Iterable[Training]) -> Training:
    """What several sessions ask for in all."""
    all_ = list(trainings)
    return Training(
        strength=_summed(one.strength for one in all_),
        conditioning=_summed(one.conditioning for one in all_),
        balance=Balance.summed(one.balance for one in all_),
        one_sided=total(one.one_sided for one in all_),
        two_sided=total(one.two_sided for one in all_),
        uneven=tuple(uneven for one in all_ for uneven in one.uneven),
        minutes=_summed(one.minutes for one in all_),
        aerobic=_summed(one.aerobic for one in all_),
        kcal=total(one.kcal for one in all_),
        strength_sessions=sum(one.strength_sessions for one in all_),
    )


def moderate_minutes(minutes: Mapping[str, Span]) -> Span:
    """Minutes at moderate intensity, with each vigorous one counted as two, of aerobic work.

    *WHO guidelines on physical activity and sedentary behaviour* (2020): 150 to 300 minutes of moderate
    aerobic activity a week, 75 to 150 of vigorous, or an equivalent combination. Strengthening is asked for
    besides, on two days, and does not count towards these minutes.
    """
    return minutes.get("moderate", NOTHING) + minutes.get("vigorous", NOTHING) * 2


def _uneven(session: int, one: UnevenItem) -> UnevenLoad:
    left_over = max(map(abs, one.residuals), default=0.0)
    return UnevenLoad(session=session, exercise=one.item.exercise, left_over=left_over, measure=one.measure)


def _summed(parts: Iterable[Mapping[str, Span]]) -> dict[str, Span]:
    sums: dict[str, Span] = {}
    for part in parts:
        for key, span in part.items():
            add_to(sums, key, span)
    return sums
