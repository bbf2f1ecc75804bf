"""What a series asked for so far: every showing of every form, and how long ago an exercise was last used."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import combinations

from sitegen.composing.rises import Points
from sitegen.model import Episode, Series
from sitegen.study.forms import FormKey, Forms, shown_form
from sitegen.study.next_dose import EarlierDose
from sitegen.study.overview import Overview
from sitegen.study.progression import ProgressPoint, points_of
from sitegen.study.timing import item_sets
from sitegen.study.volume import COUNTED_KINDS, KNEE, PULL, PUSH, STRENGTH
from sitegen.study.weeks import planned_days

MAIN_LIFTS = {"knee": KNEE, "hinge": ("hinge",), "push": PUSH, "pull": PULL}
"""What every session should have some sets of, by patterns."""
LOOKED_BACK = 9
"""Sessions whose pairs are not to come again at once: three weeks of three."""
BEGINNINGS = 3
"""Sessions whose first lifts are not to come first again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowingHistory:
    """Showings in strength and conditioning blocks, and use anywhere."""

    showings: Mapping[tuple[FormKey, str], tuple[EarlierDose, ...]]
    """By form and kind of block, in the order of the episodes."""
    last_form: Mapping[tuple[str, str], FormKey]
    """By exercise and kind of block, the form it was last shown in."""
    last_used: Mapping[str, int]
    """By exercise, the number of the last episode whose strength or conditioning has it."""
    loaded: Mapping[str, int]
    """By pattern, the number of the last episode whose strength blocks have it with a load."""
    points: Points
    """By form and unit, how much the last session with it asks for in all."""
    paired: frozenset[frozenset[str]]
    """Exercises that stood in one block of a session not long ago, two by two."""
    begun: tuple[frozenset[str], ...]
    """Of the last sessions, the large lifts of the first block of strength."""
    elsewhere: frozenset[str]
    """Exercises that only warm-ups, mobility and cool-downs have."""


def history_of(series: Series, forms: Forms, seen: Overview) -> ShowingHistory:
    """The history of all sessions, plans among them."""
    days = _days(series, seen)
    showings: dict[tuple[FormKey, str], list[EarlierDose]] = {}
    last_form: dict[tuple[str, str], FormKey] = {}
    last_used: dict[str, int] = {}
    others: set[str] = set()
    points: dict[tuple[FormKey, str], ProgressPoint] = {}
    loaded: dict[str, int] = {}
    for episode in series.sessions:
        for _, point in points_of(series.details, forms, episode):
            points[point.form, point.unit] = point
        for block in episode.blocks:
            if block.kind not in COUNTED_KINDS:
                others.update(item.exercise for item in block.items)
                continue
            for item, sets in zip(block.items, item_sets(series.details, forms, block), strict=True):
                key = FormKey(item.exercise, item.variant)
                showing = EarlierDose(
                    number=episode.number, day=days.get(episode.number), sets=sets.mid, block=block, item=item
                )
                showings.setdefault((key, block.kind), []).append(showing)
                if item.load is not None and block.kind in STRENGTH:
                    loaded[shown_form(forms, item).pattern] = episode.number
                last_form[item.exercise, block.kind] = key
                last_used[item.exercise] = last_used[shown_form(forms, item).exercise] = episode.number
    return ShowingHistory(
        showings={key: tuple(some) for key, some in showings.items()},
        last_form=last_form,
        last_used=last_used,
        loaded=loaded,
        points=points,
        paired=frozenset(pair for one in series.sessions[-LOOKED_BACK:] for pair in _pairs(forms, one)),
        begun=tuple(_begun(forms, one) for one in series.sessions[-BEGINNINGS:]),
        elsewhere=frozenset(others - set(last_used)),
    )


def _pairs(forms: Forms, episode: Episode) -> Iterator[frozenset[str]]:
    for block in episode.blocks:
        if block.kind in COUNTED_KINDS:
            names = [shown_form(forms, item).exercise for item in block.items]
            yield from map(frozenset, combinations(names, 2))


def _begun(forms: Forms, episode: Episode) -> frozenset[str]:
    first = next((block for block in episode.blocks if block.kind in STRENGTH), None)
    lifts = (lift_of(shown_form(forms, item).pattern) for item in (first.items if first else ()))
    return frozenset(lift for lift in lifts if lift)


def lift_of(pattern: str) -> str:
    """Which of the large lifts a pattern is; empty for none."""
    return next((name for name, patterns in MAIN_LIFTS.items() if pattern in patterns), "")


def _days(series: Series, seen: Overview) -> dict[int, date]:
    """The day of each episode by the calendar, else its release."""
    days = {episode.number: episode.released for episode in series.sessions if episode.released}
    if seen.request is not None:
        days |= {session: day for session, _, day in planned_days(seen.request)}
    return days
